"""The crack drawn as lines on the face of the member: where lines meet, and points along them.

A line is a polyline of at least two points (x, y) in mm, y upwards. A branch leaves another line.
An island strand leaves it and comes back, or is a ring. Where two lines touch or cross is a
junction.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise

from app.trade.calculator import Input, Point
from app.trade.errors import NotListed

TOUCH_MM = 1.0  # lines closer than this are taken to touch: a pencil line is no thinner

CRACK = Input("crack_mm", "mm", -1e6, 1e6, "path", says="the main crack, from end to end")
BRANCHES = Input(
    "branches_mm", "mm", -1e6, 1e6, "paths", default=(), says="branches, each from its junction"
)
ISLANDS = Input(
    "islands_mm", "mm", -1e6, 1e6, "paths", default=(), says="strands around islands of concrete"
)


@dataclass(frozen=True, slots=True)
class Line:
    """A checked polyline: its points and the distance of each from its start, mm."""

    points: tuple[Point, ...]
    at_mm: tuple[float, ...]

    @property
    def length_mm(self) -> float:
        """Length along the line, mm."""
        return self.at_mm[-1]

    @property
    def is_ring(self) -> bool:
        """True when the line ends where it began."""
        return math.dist(self.points[0], self.points[-1]) <= TOUCH_MM

    def point(self, at_mm: float) -> Point:
        """The point at a distance along the line, mm; the ends beyond its ends."""
        for (start, a), (end, b) in pairwise(zip(self.at_mm, self.points, strict=True)):
            if at_mm <= end:
                share = max(0.0, (at_mm - start) / (end - start))
                return (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
        return self.points[-1]


@dataclass(frozen=True, slots=True)
class Meeting:
    """Two lines touching: each line's index and the distance along it, mm."""

    line: int
    at_mm: float
    other: int
    other_at_mm: float


def line_of(points: Sequence[Point], bounds: Input) -> Line:
    """Check a path and measure it.

    Errors: OutOfRange for a coordinate; NotListed for fewer than two points, or two the same.
    """
    if len(points) < 2:
        raise NotListed(bounds.name, list(points), "a line needs at least two points")
    clean = tuple((bounds.check(x), bounds.check(y)) for x, y in points)
    at = [0.0]
    for a, b in pairwise(clean):
        step = math.dist(a, b)
        if step <= TOUCH_MM:
            raise NotListed(bounds.name, [a, b], f"points must lie over {TOUCH_MM:g} mm apart")
        at.append(at[-1] + step)
    return Line(clean, tuple(at))


def meetings(lines: Sequence[Line]) -> tuple[Meeting, ...]:
    """Every place where two lines touch or cross, or one line crosses itself."""
    segments = [
        (index, number, line)
        for index, line in enumerate(lines)
        for number in range(len(line.points) - 1)
    ]
    found: list[Meeting] = []
    for (i, m, first), (j, n, second) in combinations(segments, 2):
        if i == j and (n == m + 1 or (first.is_ring and m == 0 and n == len(first.points) - 2)):
            continue  # neighbours on one line share a point by nature
        for s, t in _touches(first.points[m : m + 2], second.points[n : n + 2]):
            found.append(Meeting(i, _along(first, m, s), j, _along(second, n, t)))
    return tuple(found)


def _along(line: Line, segment: int, share: float) -> float:
    start, end = line.at_mm[segment : segment + 2]
    return start + share * (end - start)


def _touches(first: Sequence[Point], second: Sequence[Point]) -> list[tuple[float, float]]:
    """Shares along two segments where they cross, or where an end of one lies on the other."""
    ends = [(s, _nearest(second, first[int(s)])) for s in (0.0, 1.0)]
    ends += [(_nearest(first, second[int(t)]), t) for t in (0.0, 1.0)]
    close = [(s, t) for s, t in ends if math.dist(_at(first, s), _at(second, t)) <= TOUCH_MM]
    return close or _crossing(first, second)


def _crossing(first: Sequence[Point], second: Sequence[Point]) -> list[tuple[float, float]]:
    (ax, ay), (bx, by) = first
    (cx, cy), (dx, dy) = second
    cross = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    if cross == 0:
        return []
    s = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / cross
    t = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / cross
    return [(s, t)] if 0 <= s <= 1 and 0 <= t <= 1 else []


def _nearest(segment: Sequence[Point], point: Point) -> float:
    (ax, ay), (bx, by) = segment
    run = (bx - ax) ** 2 + (by - ay) ** 2
    share = ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / run
    return min(1.0, max(0.0, share))


def _at(segment: Sequence[Point], share: float) -> Point:
    (ax, ay), (bx, by) = segment
    return (ax + share * (bx - ax), ay + share * (by - ay))
