"""What was behind the wall, as it is kept: for the trainee's run and for the book's."""

from __future__ import annotations

import json
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from app.worker.practice.papers import ML_PER_M3
from app.worker.practice.setup import crack_from

if TYPE_CHECKING:
    from app.trade.fill import ArrivalMap, Behind, Crack, Filling

VERSION = 1
MOST_BOOKS = 32


def side_of(filling: Filling) -> dict[str, Any]:
    """One side of the comparison, from a crack as it is now."""
    return _side(filling.behind, filling.arrival_map)


def book_side(setup: dict[str, Any]) -> dict[str, Any]:
    """The same crack injected by the book; worked out once a process for each set-up."""
    return _book(json.dumps(setup, sort_keys=True))


@lru_cache(maxsize=MOST_BOOKS)
def _book(setup: str) -> dict[str, Any]:
    from app.trade.filling.the_book import follow_the_book  # loads numpy and scipy

    result = follow_the_book(crack_from(json.loads(setup)))
    return _side(result.behind, result.arrival_map)


def order_of(crack: Crack) -> tuple[int, ...]:
    """The ports in the order that the lesson gives."""
    from app.trade.filling.the_book import book_order

    return tuple(book_order(crack))


def result_json(
    you: dict[str, Any], book: dict[str, Any], order: tuple[int, ...]
) -> dict[str, Any]:
    """The result as it is kept."""
    return {"version": VERSION, "order": list(order), "you": you, "book": book}


def _side(behind: Behind, arrival: ArrivalMap) -> dict[str, Any]:
    return {
        "time_s": behind.time_s,
        "crack_ml": _ml(behind.crack_m3),
        "filled": behind.filled_share,
        "by_depth": list(behind.share_by_depth),
        "pockets": [
            {
                "strip": one.strip,
                "from_m": round(one.from_m, 4),
                "to_m": round(one.to_m, 4),
                "from_depth_m": round(one.from_depth_m, 4),
                "to_depth_m": round(one.to_depth_m, 4),
                "ml": _ml(one.volume_m3),
            }
            for one in behind.pockets
        ],
        "trapped": behind.trapped_share,
        "used_ml": _ml(behind.used_m3),
        "in_crack_ml": _ml(behind.in_crack_m3),
        "out_of_ports_ml": _ml(behind.out_of_ports_m3),
        "out_of_pinholes_ml": _ml(behind.out_of_pinholes_m3),
        "out_of_back_ml": _ml(behind.out_of_back_m3),
        "map": {
            "end_s": arrival.end_s,
            "sizes": [list(size) for size in arrival.sizes],
            "levels": arrival.encoded(),
        },
    }


def _ml(volume_m3: float) -> float:
    """mL to a thousandth: what differs from machine to machine lies far below."""
    return round(volume_m3 * ML_PER_M3, 3)
