"""The crack laid open: when resin reached each part of it, and what stayed empty.

A strip is a plane of blocks, along the crack and into the depth. On a crack up a wall the strips
stand upright, the face at their left; else they lie, the face on top (underneath for an underside).
Depth is drawn larger than length.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from typing import Final

from app.drawing.svg import number, picture, tag, words_at

NEVER, LEVELS = 255, 254
TONES: Final = 5  # from the first resin to the last
PORT = 6.0
GAP = 22.0  # between strips


@dataclass(frozen=True, slots=True)
class Plane:
    """One strip: its blocks, and the levels of their filling, column after column, face first.

    foot: where its first end lies, as a share of the main strip; span: its length as such a share.
    """

    columns: int
    rows: int
    levels: bytes
    foot: float
    span: float


@dataclass(frozen=True, slots=True)
class Pocket:
    """Bounds of shut-in air on a strip, as shares of its length and depth."""

    strip: int
    along: tuple[float, float]
    deep: tuple[float, float]


@dataclass(frozen=True, slots=True)
class Spot:
    """A port on the face of a strip, as a share of its length."""

    number: int
    strip: int
    along: float


@dataclass(frozen=True, slots=True)
class Layout:
    """How strips lie in the picture: the room for each, and which way they run.

    way: up (vertical), across (level, face on top) or under (overhead, face underneath).
    """

    way: str
    long: float  # of the main strip, in the picture
    deep: float

    def box(self, strip: int, plane: Plane) -> tuple[float, float, float, float]:
        """x, y, width and height of a strip."""
        if self.way == "up":
            x = PORT * 4 + strip * (self.deep + GAP)
            high = self.long * plane.span
            return x, PORT * 2 + self.long * (1 - plane.foot) - high, self.deep, high
        y = PORT * 4 + strip * (self.deep + GAP)
        return PORT * 2 + self.long * plane.foot, y, self.long * plane.span, self.deep

    def block(
        self, strip: int, plane: Plane, along: tuple[float, float], deep: tuple[float, float]
    ) -> tuple[float, float, float, float]:
        """x, y, width and height of a part of a strip, given as shares of it."""
        x, y, width, height = self.box(strip, plane)
        (a, b), (c, d) = along, deep
        if self.way == "up":
            return x + c * width, y + (1 - b) * height, (d - c) * width, (b - a) * height
        if self.way == "under":
            c, d = 1 - d, 1 - c
        return x + a * width, y + c * height, (b - a) * width, (d - c) * height

    def size(self, planes: Sequence[Plane]) -> tuple[float, float]:
        """Width and height of the whole picture."""
        across = PORT * 4 + len(planes) * self.deep + (len(planes) - 1) * GAP + PORT * 2
        along = self.long * max(plane.foot + plane.span for plane in planes) + PORT * 4
        return (across, along) if self.way == "up" else (along, across)


def opened_crack(
    name: str,
    layout: Layout,
    planes: Sequence[Plane],
    ports: Sequence[Spot],
    pockets: Sequence[Pocket],
    title: str,
    description: str,
) -> str:
    """The crack at the end: five tones, each a fifth of what was filled, from first to last.

    Inputs:
        name: the only one of its kind on the page
        layout, planes, ports: see there
        pockets: outlined
        title, description: in the reader's language
    Result: SVG text
    """
    parts = [*_ground(layout, planes), *_hatched(name, layout, planes)]
    bounds = _fifths(planes)
    for tone, (low, high) in enumerate(pairwise(bounds), start=1):
        d = _blocks(layout, planes, partial(_is_between, low, high))
        parts += [tag("path", class_=f"wet-{tone}", d=d)] if d else []
    parts += [_pocket(layout, planes, pocket) for pocket in pockets]
    parts += [part for port in ports for part in _port(layout, planes, port)]
    return picture(name, *layout.size(planes), title, description, parts)


def still(name: str, layout: Layout, planes: Sequence[Plane], share: float, title: str) -> str:
    """The crack at one moment, a share of the time that its levels span."""
    last = share * LEVELS
    d = _blocks(layout, planes, partial(_is_between, 0, last + 0.5))
    parts = [*_ground(layout, planes), *([tag("path", class_="wet-3", d=d)] if d else [])]
    return picture(name, *layout.size(planes), title, "", parts)


def _ground(layout: Layout, planes: Sequence[Plane]) -> list[str]:
    """Bare concrete, and a seal along the face of every strip."""
    parts = []
    for strip, plane in enumerate(planes):
        x, y, width, height = layout.box(strip, plane)
        parts.append(tag("rect", class_="open-dry", x=x, y=y, width=width, height=height))
        if layout.way == "up":
            seal = (x - 5, y, 5.0, height)
        else:
            seal = (x, y - 5 if layout.way == "across" else y + height, width, 5.0)
        parts.append(
            tag("rect", class_="open-seal", x=seal[0], y=seal[1], width=seal[2], height=seal[3])
        )
    return parts


def _hatched(name: str, layout: Layout, planes: Sequence[Plane]) -> list[str]:
    """Strokes over all of it; resin is drawn on top, so that they stay where none came."""
    stroke = tag("path", class_="hatch", d="M-2 12L12 -2M4 16L16 4")
    box = {"x": 0, "y": 0, "width": 12, "height": 12}
    pattern = tag("pattern", stroke, id=f"{name}-bare", patternUnits="userSpaceOnUse", **box)
    parts = [pattern]
    for strip, plane in enumerate(planes):
        x, y, width, height = layout.box(strip, plane)
        parts.append(tag("rect", fill=f"url(#{name}-bare)", x=x, y=y, width=width, height=height))
    return parts


def _blocks(layout: Layout, planes: Sequence[Plane], is_in: Callable[[int], bool]) -> str:
    """Runs of blocks along each row as one path: short, and crisp at any size."""
    runs = []
    for strip, plane in enumerate(planes):
        for row in range(plane.rows):
            deep = (row / plane.rows, (row + 1) / plane.rows)
            line = plane.levels[row :: plane.rows]
            for first, last in _runs([is_in(level) for level in line]):
                along = (first / plane.columns, last / plane.columns)
                x, y, width, height = (number(v) for v in layout.block(strip, plane, along, deep))
                runs.append(f"M{x} {y}h{width}v{height}h-{width}z")
    return "".join(runs)


def _fifths(planes: Sequence[Plane]) -> list[int]:
    """Levels that part the filled blocks into as many tones, each of as many blocks."""
    wet = sorted(level for plane in planes for level in plane.levels if level != NEVER)
    if not wet:
        return []
    return [wet[len(wet) * tone // TONES] for tone in range(TONES)] + [wet[-1] + 1]


def _is_between(low: float, high: float, level: int) -> bool:
    return low <= level < high


def _runs(marks: Sequence[bool]) -> list[tuple[int, int]]:
    found, start = [], -1
    for place, mark in enumerate([*marks, False]):
        if mark and start < 0:
            start = place
        elif not mark and start >= 0:
            found.append((start, place))
            start = -1
    return found


def _pocket(layout: Layout, planes: Sequence[Plane], pocket: Pocket) -> str:
    x, y, width, height = layout.block(
        pocket.strip, planes[pocket.strip], pocket.along, pocket.deep
    )
    return tag(
        "rect", class_="open-pocket", x=x, y=y, width=max(width, 3.0), height=max(height, 3.0)
    )


def _port(layout: Layout, planes: Sequence[Plane], port: Spot) -> list[str]:
    plane = planes[port.strip]
    x, y, _, _ = layout.block(port.strip, plane, (port.along, port.along), (0.0, 0.0))
    if layout.way == "up":
        ring, words = (x - 5, y), (x - 14, y + 5, "end")
    else:
        side = -1 if layout.way == "across" else 1
        ring, words = (x, y + 5 * side), (x, y + (-13 if side < 0 else 25), "middle")
    return [
        tag("circle", class_="wall-ring", cx=ring[0], cy=ring[1], r=PORT - 1),
        words_at(words[0], words[1], str(port.number), 15, words[2]),
    ]
