"""The frame of a plot: two axes with their ticks and words, and what is marked across it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from app.drawing.scales import Scale
from app.drawing.svg import path, tag, words_at

WIDTH, HEIGHT = 360.0, 284.0
LEFT, RIGHT, TOP, BOTTOM = 70.0, 346.0, 46.0, 236.0

SMALL, MEDIUM = 14.0, 15.0
LETTER = 0.56  # width of a letter over its size, in the narrow faces of the site and wider ones


@dataclass(frozen=True, slots=True)
class Axis:
    """A scale, the values that get a tick, how a value is written, and what is measured."""

    scale: Scale
    ticks: tuple[float, ...]
    written: Callable[[float], str]
    words: str


def across(low: float, high: float, is_log: bool = False) -> Scale:
    """The scale along the foot of the frame."""
    return Scale(low, high, LEFT, RIGHT, is_log)


def upwards(low: float, high: float, is_log: bool = False) -> Scale:
    """The scale up the side of the frame."""
    return Scale(low, high, BOTTOM, TOP, is_log)


def frame(foot: Axis, side: Axis) -> list[str]:
    """Grid lines, ticks with their words, and the names of both axes."""
    parts = [
        tag("rect", class_="plot-sheet", x=LEFT, y=TOP, width=RIGHT - LEFT, height=BOTTOM - TOP)
    ]
    for value in side.ticks:
        y = side.scale.at(value)
        parts.append(path([(LEFT - 5, y), (RIGHT, y)], "plot-grid"))
        parts.append(words_at(LEFT - 9, y + 5, side.written(value), SMALL, "end"))
    for value, words in _apart(foot):
        x = foot.scale.at(value)
        parts.append(path([(x, TOP), (x, BOTTOM + 5)], "plot-grid"))
        if words:
            parts.append(words_at(x, BOTTOM + 20, words, SMALL, "middle"))
    parts.append(path([(LEFT, TOP), (LEFT, BOTTOM), (RIGHT, BOTTOM)], "ink"))
    parts.append(words_at(6, 17, side.words, MEDIUM))
    parts.append(words_at(RIGHT, HEIGHT - 8, foot.words, MEDIUM, "end"))
    return parts


def _apart(foot: Axis) -> Sequence[tuple[float, str]]:
    """Each tick with its words, or without where they would run into the words before."""
    found: list[tuple[float, str]] = []
    taken = 0.0
    for value in foot.ticks:
        x, words = foot.scale.at(value), foot.written(value)
        half = len(words) * SMALL * LETTER / 2
        if x - half < taken or x + half > WIDTH:
            words = ""
        else:
            taken = x + half + 4
        found.append((value, words))
    return found


def level(side: Axis, value: float, words: str) -> list[str]:
    """A value marked right across the frame, its words at the right, under the line."""
    y = side.scale.at(value)
    is_low = y + 22 > BOTTOM
    return [
        path([(LEFT, y), (RIGHT, y)], "ink", stroke_dasharray="7 5"),
        beside(RIGHT - 6, y - 7 if is_low else y + 17, words, "end"),
    ]


def plumb(foot: Axis, value: float, words: str) -> list[str]:
    """A value marked from top to foot, its words above the frame."""
    x = foot.scale.at(value)
    half = len(words) * MEDIUM * LETTER / 2
    middle = min(max(x, LEFT + half), WIDTH - 4 - half)
    return [
        path([(x, TOP - 4), (x, BOTTOM)], "ink", stroke_dasharray="2 5"),
        words_at(middle, TOP - 9, words, MEDIUM, "middle"),
    ]


def beside(x: float, y: float, words: str, anchor: str) -> str:
    """Words inside the frame; a rim in the sheet's colour keeps the lines off them."""
    return words_at(x, y, words, MEDIUM, anchor, class_="label plot-words")
