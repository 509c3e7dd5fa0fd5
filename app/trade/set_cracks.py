"""Twelve practice cracks of rising difficulty: invented, each with what it teaches.

Resins, pumps and walls are made up for practice; no product is meant. `book_fills` says from what
to what share of the crack somebody fills who follows the book, worked out with the model itself: a
share well below 1 is part of what the crack teaches. None of these is a wall; real cracks are
judged by the engineer, with the product data sheet.

Reading this table loads no numpy; by_the_book does.
"""

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING

from app.trade.filling.crack import Crack
from app.trade.filling.easier_cracks import EASIER
from app.trade.filling.harder_cracks import HARDER
from app.trade.filling.set_crack import SetCrack

if TYPE_CHECKING:
    from app.trade.filling.actions import Decision

__all__ = ["SET_CRACKS", "SetCrack", "by_the_book"]

SET_CRACKS: Mapping[str, SetCrack] = MappingProxyType({one.name: one for one in (*EASIER, *HARDER)})


def by_the_book(crack: Crack) -> "tuple[Decision, ...]":
    """The decisions of somebody who follows the lesson's order on this crack.

    Inputs:
        crack: any Crack
    Result: decisions for `run`, which then gives what that person got
    Errors: as for Crack and Filling
    Source: injection-lowest-first, injection-end-to-end, injection-overhead, crack-full-holds
    """
    from app.trade.filling.the_book import by_the_book as follow  # loads numpy and scipy

    return follow(crack)
