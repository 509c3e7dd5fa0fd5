"""The wall as a hand sees it: the face with its seal, the crack's line, the ports and what shows.

To scale along the crack and its branches; rings, drops and the hose are not. Nothing of the inside.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.drawing.room import Box, Room, around
from app.drawing.svg import Point, path, picture, tag, words_at

RING, SMALLEST_RING = 13.0, 8.0
SIZE = 22.0  # of the port numbers, beside a ring of full size
PAD = 34.0
HATCH = 9.0
WOBBLE = 3.2
WAVE = 13.0
FAR_RIGHT = 0.62  # beyond it the hose comes in from the right
HOSE_BEND = 38.0


@dataclass(frozen=True, slots=True)
class PortSeen:
    """One port: its strip, its place along it, what is at it.

    state: open, shows, capped, hose, hose-open (the hose with the valve open).
    """

    number: int
    strip: int
    at_m: float
    state: str
    is_chosen: bool = False


@dataclass(frozen=True, slots=True)
class LeakSeen:
    """Resin that comes through the seal."""

    strip: int
    at_m: float


@dataclass(frozen=True, slots=True)
class Line:
    """One strip of the crack on the face: corner points in m, x across and y up."""

    points: tuple[Point, ...]

    def at(self, along_m: float) -> Point:
        """The point so far along the line."""
        left = along_m
        for a, b in pairwise(self.points):
            length = math.dist(a, b)
            if left <= length or b is self.points[-1]:
                share = min(left / length, 1.0) if length else 0.0
                return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share
            left -= length
        return self.points[-1]


@dataclass(frozen=True, slots=True)
class _Sheet:
    """From m on the face to the picture."""

    scale: float
    left_m: float
    top_m: float
    width: float
    height: float
    shift: Point

    def at(self, point: Point) -> Point:
        x = self.shift[0] + (point[0] - self.left_m) * self.scale
        return x, self.shift[1] + (self.top_m - point[1]) * self.scale


def wall_front(
    lines: Sequence[Line],
    ports: Sequence[PortSeen],
    leaks: Sequence[LeakSeen],
    size: tuple[float, float],
    title: str,
    description: str,
) -> str:
    """The face of the wall with everything that can be seen on it.

    Inputs:
        lines: main crack first, then the branches, m
        ports, leaks: where they are and what they show
        size: of the picture, width and height
        title, description: in the reader's language; the description says what every port shows
    Result: SVG text
    """
    sheet = _sheet(lines, size)
    parts = [tag("rect", class_="wall-face", x=1, y=1, width=size[0] - 2, height=size[1] - 2)]
    parts.append(_edges(size))
    drawn = [[sheet.at(point) for point in line.points] for line in lines]
    parts += [path(points, "wall-seal") for points in drawn]
    parts += [path(_crooked(points), "wall-crack") for points in drawn]
    places = [sheet.at(lines[port.strip].at(port.at_m)) for port in ports]
    ring = _ring(places)
    room = Room(Box(2, 2, size[0] - 2, size[1] - 2))
    for place in places:
        room.take(around(place, ring))
    for port, place in zip(ports, places, strict=True):
        parts.append(_port(port, place, _is_upright(lines[port.strip]), ring, size, room))
    parts += [_leak(sheet.at(lines[leak.strip].at(leak.at_m)), size) for leak in leaks]
    return picture("wall", *size, title, description, parts)


def _sheet(lines: Sequence[Line], size: tuple[float, float]) -> _Sheet:
    xs = [x for line in lines for x, _ in line.points]
    ys = [y for line in lines for _, y in line.points]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    room = (size[0] - 2 * PAD, size[1] - 2 * PAD)
    scale = min(
        room[0] / wide if wide else math.inf,
        room[1] / high if high else math.inf,
    )
    shift = ((size[0] - wide * scale) / 2, (size[1] - high * scale) / 2)
    return _Sheet(scale, min(xs), max(ys), *size, shift)


def _edges(size: tuple[float, float]) -> str:
    """Cut concrete: strokes along the left and right edge of the face."""
    count = int((size[1] - 2) / (HATCH * 1.3))
    strokes = [
        f"M{x:g} {1 + HATCH * 1.3 * n + HATCH:g}l{HATCH:g} -{HATCH:g}"
        for x in (1.0, size[0] - 1 - HATCH)
        for n in range(count)
    ]
    return tag("path", class_="hatch", d="".join(strokes))


def _crooked(points: Sequence[Point]) -> list[Point]:
    """The line as a crack runs: a wobble to both sides that is the same each time."""
    found: list[Point] = [points[0]]
    step = 0
    for a, b in pairwise(points):
        length = math.dist(a, b)
        pieces = max(2, round(length / WAVE))
        across = ((a[1] - b[1]) / length, (b[0] - a[0]) / length) if length else (0.0, 0.0)
        for n in range(1, pieces):
            step += 1
            side = WOBBLE * math.sin(step * 2.4) * math.cos(step * 0.7)
            x = a[0] + (b[0] - a[0]) * n / pieces + across[0] * side
            y = a[1] + (b[1] - a[1]) * n / pieces + across[1] * side
            found.append((x, y))
        found.append(b)
    return found


def _ring(places: Sequence[Point]) -> float:
    """Rings as large as the closest two ports allow."""
    gaps = [math.dist(a, b) for n, a in enumerate(places) for b in places[:n]]
    return max(SMALLEST_RING, min(RING, 0.45 * min(gaps, default=99.0)))


def _port(
    port: PortSeen,
    place: Point,
    is_upright: bool,
    ring: float,
    size: tuple[float, float],
    room: Room,
) -> str:
    x, y = place
    parts: list[str] = []
    if port.state in ("hose", "hose-open"):
        parts.append(_hose(place, is_upright, size))
    # The ring with room around it is what a thumb hits.
    parts.append(tag("circle", class_="wall-touch", cx=x, cy=y, r=ring * 1.7))
    parts.append(tag("circle", class_="wall-ring", cx=x, cy=y, r=ring))
    parts += _inside_ring(port.state, place, ring)
    if port.state == "shows":
        spot = (x - ring - 6, y - 4) if is_upright else (x, y + ring * 0.85)
        parts.append(_drop(spot, ring / RING))
    parts.append(_number(port.number, place, is_upright, ring, room))
    state = f"wall-port is-{port.state}{' is-chosen' * port.is_chosen}"
    return tag("g", *parts, class_=state, data_port=str(port.number))


def _number(number: int, place: Point, is_upright: bool, ring: float, room: Room) -> str:
    """Beside the ring where there is room: to the right first, or above on a level crack."""
    x, y = place
    letters = SIZE * ring / RING
    half = letters * 0.28 * len(str(number))
    away, up = ring + 7 + half, ring + 6 + letters * 0.4
    sides = [(x + away, y), (x - away, y), (x, y - up), (x, y + up)]
    if not is_upright:
        sides = sides[2:] + sides[:2]
    boxes = [Box(a - half, b - letters * 0.4, a + half, b + letters * 0.4) for a, b in sides]
    found = sides[room.first_free(boxes) or 0]
    return words_at(found[0], found[1] + letters * 0.36, str(number), letters, "middle")


def _is_upright(line: Line) -> bool:
    (ax, ay), (bx, by) = line.points[0], line.points[-1]
    return abs(by - ay) >= abs(bx - ax)


def _inside_ring(state: str, place: Point, ring: float) -> list[str]:
    """What the ring holds: an empty bore, resin, a cap, the end of the hose."""
    x, y = place
    if state == "capped":
        a = ring * 0.5
        return [
            tag("circle", class_="wall-cap", cx=x, cy=y, r=ring * 0.8),
            path([(x - a, y - a), (x + a, y + a)], "wall-cross"),
            path([(x + a, y - a), (x - a, y + a)], "wall-cross"),
        ]
    if state in ("hose", "hose-open"):
        end = "wall-steel" if state == "hose" else "wall-wet"
        return [tag("circle", class_=end, cx=x, cy=y, r=ring * 0.7)]
    if state == "shows":
        return [tag("circle", class_="wall-wet", cx=x, cy=y, r=ring * 0.6)]
    return [tag("circle", class_="wall-bore", cx=x, cy=y, r=ring * 0.38)]


def _drop(top: Point, scale: float) -> str:
    x, y = top
    s = scale
    return tag(
        "path",
        class_="wall-drop",
        d=f"M{x:g} {y:g}c{-2 * s:g} {9 * s:g} {-7 * s:g} {11 * s:g} {-7 * s:g} {18 * s:g}"
        f"a{7 * s:g} {7 * s:g} 0 0 0 {14 * s:g} 0"
        f"c0 {-7 * s:g} {-5 * s:g} {-9 * s:g} {-7 * s:g} {-18 * s:g}z",
    )


def _leak(place: Point, size: tuple[float, float]) -> str:
    """A drop out of the seal, ringed and led away from the ports: a sign by shape, not colour."""
    x, y = place
    mark = (x - 52, y) if size[1] > size[0] else (x, y + 48)
    ring = tag("circle", class_="warn", cx=mark[0], cy=mark[1], r=20)
    edge = (mark[0] + 20, y) if size[1] > size[0] else (x, mark[1] - 20)
    drop = _drop((mark[0], mark[1] - 15), 0.95)
    return tag("g", path([place, edge], "warn"), ring, drop, class_="wall-leak")


def _hose(place: Point, is_upright: bool, size: tuple[float, float]) -> str:
    """The hose comes in from the side that has no numbers."""
    x, y = place
    if is_upright:
        right = x > size[0] * FAR_RIGHT
        far = (size[0] if right else 0.0, y + 26)
        bend = (x + (HOSE_BEND) * (1 if right else -1), y + 2)
    else:
        far, bend = (x + 18, size[1]), (x + 2, y + HOSE_BEND)
    d = f"M{far[0]:.1f} {far[1]:.1f}Q{bend[0]:.1f} {bend[1]:.1f} {x:.1f} {y:.1f}"
    return tag("path", class_="wall-hose", d=d) + tag("path", class_="wall-hose-in", d=d)
