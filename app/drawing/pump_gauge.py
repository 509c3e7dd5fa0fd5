"""The pump's gauge: a dial with its needle, the pressure that is set, and where ports give way."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from app.drawing.svg import Point, number, path, picture, tag, words_at

WIDTH, HEIGHT = 180.0, 150.0
MIDDLE: Point = (90.0, 88.0)
RADIUS = 74.0
START, SWEEP = 215.0, 250.0  # degrees: where the scale begins, counted from the right, and its span
SIZE = 15.0


@dataclass(frozen=True, slots=True)
class Reading:
    """What the gauge shows, as shares of its scale. ticks: (share, words)."""

    now: float
    set_to: float
    limit: float
    ticks: Sequence[tuple[float, str]]
    unit: str


def pump_gauge(reading: Reading, title: str, description: str) -> str:
    """The dial.

    Inputs:
        reading: shares of the scale from 0 to 1; a needle beyond the end rests there
        title, description: in the reader's language
    Result: SVG text
    """
    parts = [
        tag("circle", class_="gauge-face", cx=MIDDLE[0], cy=MIDDLE[1], r=RADIUS + 10),
        tag("path", class_="gauge-scale", d=_arc(0, 1, RADIUS)),
        tag("path", class_="gauge-over", d=_arc(min(reading.limit, 1), 1, RADIUS)),
    ]
    for share, words in reading.ticks:
        parts.append(path([_at(share, RADIUS), _at(share, RADIUS - 11)], "ink"))
        x, y = _at(share, RADIUS - 24)
        parts.append(words_at(x, y + SIZE * 0.36, words, SIZE, "middle"))
    parts += _set_mark(reading.set_to)
    parts.append(words_at(MIDDLE[0], MIDDLE[1] + 46, reading.unit, SIZE, "middle"))
    parts.append(_needle(min(max(reading.now, 0), 1.02)))
    parts.append(tag("circle", class_="gauge-hub", cx=MIDDLE[0], cy=MIDDLE[1], r=7))
    return picture("gauge", WIDTH, HEIGHT + 24, title, description, parts)


def turn_of(share: float) -> float:
    """How far the needle turns from straight up, degrees clockwise."""
    return 90 - (START - SWEEP * share)


def _needle(share: float) -> str:
    """Drawn straight up and turned, so that a script can turn it from one reading to the next."""
    x, y = MIDDLE
    top = y - RADIUS + 14
    foot = number(y + 12)
    d = f"M{number(x - 4)} {foot}L{number(x)} {number(top)}L{number(x + 4)} {foot}z"
    turn = f"rotate({number(turn_of(share))} {number(x)} {number(y)})"
    return tag("path", class_="gauge-needle", id="needle", d=d, transform=turn)


def _set_mark(share: float) -> list[str]:
    """A small wedge outside the scale: the pressure set."""
    x, y = _at(min(share, 1), RADIUS + 3)
    far = [_at(min(share, 1) + turn, RADIUS + 17) for turn in (-0.022, 0.022)]
    return [path([(x, y), *far], "gauge-set", is_closed=True)]


def _at(share: float, radius: float) -> Point:
    angle = math.radians(START - SWEEP * share)
    return MIDDLE[0] + radius * math.cos(angle), MIDDLE[1] - radius * math.sin(angle)


def _arc(first: float, last: float, radius: float) -> str:
    (ax, ay), (bx, by) = _at(first, radius), _at(last, radius)
    is_large = int((last - first) * SWEEP > 180)
    return (
        f"M{number(ax)} {number(ay)}"
        f"A{number(radius)} {number(radius)} 0 {is_large} 1 {number(bx)} {number(by)}"
    )
