"""The opened wall, ready to print: pictures, the numbers beside the book's, act by act."""

import base64
import zlib
from dataclasses import dataclass
from typing import Any

from flask_babel import gettext as _

from app.drawing.opened_crack import Layout, Plane, Pocket, Spot, opened_crack, still
from app.trade.filling.crack import Crack
from app.workbook.practice_runs import PracticeRun
from app.worker.practice.face import foot_of
from app.worker.practice.lesson_order import remarks_on
from app.worker.practice.papers import papers_from
from app.worker.practice.setup import UnknownVersion, crack_from
from app.worker.practice.words import (
    act_words,
    clock,
    hidden_words,
    pocket_words,
    remark_words,
    share,
    shown,
    volume,
)

VERSION = 1
STILLS = (0.25, 0.5, 0.75, 1.0)
UP = Layout("up", 380.0, 76.0)
LYING = {"horizontal": "across", "overhead": "under"}


@dataclass(frozen=True, slots=True)
class Side:
    """One side of the comparison: its pictures, and the map that the replay is drawn from."""

    name: str  # you | book
    title: str
    svg: str
    stills: list[tuple[str, str]]  # the clock, the picture
    end_s: float
    sizes: str  # "75x20 25x20"
    levels: str
    size: tuple[float, float]
    boxes: str  # "x,y,w,h x,y,w,h": where each strip lies in the picture
    way: str


@dataclass(frozen=True, slots=True)
class ActRow:
    """One act: when, what, what it did, how full the crack was then, what the lesson says."""

    number: int
    at: str
    did: str
    happened: list[str]
    filled: str
    remarks: list[tuple[str, str]]


@dataclass(frozen=True, slots=True)
class DepthRow:
    """One band of depth with both shares."""

    words: str
    you: float
    book: float
    you_words: str
    book_words: str


@dataclass(frozen=True, slots=True)
class OpenedPage:
    """Everything the opened wall shows."""

    run: PracticeRun
    crack: Crack
    you: dict[str, Any]
    book: dict[str, Any]
    filled: str
    book_filled: str
    sentence: str
    sides: list[Side]
    numbers: list[tuple[str, str, str]]
    depths: list[DepthRow]
    pockets: list[tuple[str, str]]
    acts: list[ActRow]
    order: str
    end_s: float

    @property
    def is_narrow(self) -> bool:
        """Whether both pictures fit side by side on a phone."""
        return self.crack.orientation == "vertical" and not self.crack.branches


def opened_page(run: PracticeRun) -> OpenedPage:
    """Gather the page of a run whose wall is open. Errors: UnknownVersion."""
    result = run.result or {}
    if result.get("version") != VERSION:
        raise UnknownVersion(f"result version {result.get('version')!r}")
    crack, you, book = crack_from(run.setup), result["you"], result["book"]
    titles = {"you": _("You"), "book": _("By the book")}
    return OpenedPage(
        run=run,
        crack=crack,
        you=you,
        book=book,
        filled=share(you["filled"]),
        book_filled=share(book["filled"]),
        sentence=_sentence(you, run.is_done),
        sides=[_side(crack, name, result[name], title) for name, title in titles.items()],
        numbers=_numbers(you, book),
        depths=_depths(crack, you, book),
        pockets=_pockets(you),
        acts=_acts(run, tuple(result["order"])),
        order=", ".join(map(str, result["order"])),
        end_s=max(you["map"]["end_s"], book["map"]["end_s"]),
    )


def _sentence(you: dict[str, Any], is_done: bool) -> str:
    if is_done:
        return _("As full as by the book, and no port was pushed over its limit.")
    if not you["filled"]:
        return _("No resin went into the crack.")
    if you["pockets"]:
        return _("Air stayed behind. Look below where it was shut in.")
    return _("Part of the crack was never reached. Look below which part, and why.")


def _side(crack: Crack, name: str, side: dict[str, Any], title: str) -> Side:
    planes, layout = planes_of(crack, side["map"]), layout_of(crack)
    pockets = [_pocket(crack, one) for one in side["pockets"]]
    ports = [
        Spot(number, port.strip, port.at_m / crack.strips[port.strip].length_m)
        for number, port in enumerate(crack.ports, start=1)
    ]
    words = _(
        "%(share)s filled. Darker: reached later. Hatched: empty.", share=share(side["filled"])
    )
    end_s = side["map"]["end_s"]
    stills = [
        (clock(end_s * at), still(f"{name}-at-{n}", layout, planes, at, clock(end_s * at)))
        for n, at in enumerate(STILLS)
    ]
    boxes = (layout.box(strip, plane) for strip, plane in enumerate(planes))
    return Side(
        name=name,
        title=title,
        svg=opened_crack(name, layout, planes, ports, pockets, title, words),
        stills=stills,
        end_s=end_s,
        sizes=" ".join(f"{plane.columns}x{plane.rows}" for plane in planes),
        levels=side["map"]["levels"],
        size=layout.size(planes),
        boxes=" ".join(",".join(f"{v:.1f}" for v in box) for box in boxes),
        way=layout.way,
    )


def layout_of(crack: Crack) -> Layout:
    """How the crack's planes lie in the picture."""
    if crack.orientation == "vertical":
        return UP
    return Layout(LYING[crack.orientation], 330.0, 84.0)


def planes_of(crack: Crack, kept: dict[str, Any]) -> list[Plane]:
    """The planes of a kept map."""
    levels = zlib.decompress(base64.b64decode(kept["levels"]))
    planes, start = [], 0
    for strip, (columns, rows) in zip(crack.strips, kept["sizes"], strict=True):
        part = levels[start : start + columns * rows]
        start += columns * rows
        foot, span = foot_of(strip) / crack.length_m, strip.length_m / crack.length_m
        planes.append(Plane(columns, rows, part, foot, span))
    return planes


def _pocket(crack: Crack, kept: dict[str, Any]) -> Pocket:
    length = crack.strips[kept["strip"]].length_m
    return Pocket(
        kept["strip"],
        (kept["from_m"] / length, kept["to_m"] / length),
        (kept["from_depth_m"] / crack.depth_m, kept["to_depth_m"] / crack.depth_m),
    )


def _numbers(you: dict[str, Any], book: dict[str, Any]) -> list[tuple[str, str, str]]:
    rows = [
        (_("Filled"), "filled", share),
        (_("Air shut in"), "trapped", share),
        (_("Resin used"), "used_ml", volume),
        (_("of it in the crack"), "in_crack_ml", volume),
        (_("out of open ports"), "out_of_ports_ml", volume),
        (_("out of the seal"), "out_of_pinholes_ml", volume),
        (_("out at the back"), "out_of_back_ml", volume),
        (_("Time"), "time_s", clock),
    ]
    return [(words, told(you[name]), told(book[name])) for words, name, told in rows]


def _depths(crack: Crack, you: dict[str, Any], book: dict[str, Any]) -> list[DepthRow]:
    bands = len(you["by_depth"])
    deep = crack.depth_m * 1000 / bands
    return [
        DepthRow(
            _(
                "%(low)s to %(high)s",
                low=shown(n * deep, "length"),
                high=shown((n + 1) * deep, "length"),
            ),
            mine,
            books,
            share(mine),
            share(books),
        )
        for n, (mine, books) in enumerate(zip(you["by_depth"], book["by_depth"], strict=True))
    ]


MOST_POCKETS = 6


def _pockets(you: dict[str, Any]) -> list[tuple[str, str]]:
    found = []
    for one in you["pockets"][:MOST_POCKETS]:
        places = (one["from_m"], one["to_m"], one["from_depth_m"], one["to_depth_m"])
        sizes = [shown(place * 1000, "length") for place in places]
        found.append((volume(one["ml"]), pocket_words(one["strip"], sizes)))
    return found


def _acts(run: PracticeRun, order: tuple[int, ...]) -> list[ActRow]:
    done = papers_from(run.acts).done
    return [
        ActRow(
            number=number,
            at=clock(one.from_s),
            did=act_words(one),
            happened=[words for event in one.events if (words := hidden_words(event))],
            filled=share(one.filled),
            remarks=[(remark.mark, remark_words(remark)) for remark in remarks],
        )
        for number, (one, remarks) in enumerate(
            zip(done, remarks_on(done, order), strict=True), start=1
        )
    ]
