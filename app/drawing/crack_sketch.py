"""The crack to scale, its ports numbered in the order of injection, its extents beside it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.drawing.face import PAD, SIDE, TOP, WIDTH, Face, concrete, dimensions, face_of
from app.drawing.room import Box, Room, around
from app.drawing.svg import Point, path, picture, tag, words_at
from app.trade.crack_network import Port
from app.trade.port_layout import PortLayout

SIZE = 14.0  # of the numbers
DIGIT = 8.0
LARGEST_RADIUS, SMALLEST_RADIUS = 5.5, 2.0
ROWS = 4  # of numbers, to each side of the crack
HEIGHT_FOR_A_PORT = 18.0
LOWEST, TALLEST = 190.0, 400.0


@dataclass(frozen=True, slots=True)
class Drawn:
    """The crack as it is drawn: the main line, its branches, the strands around islands; mm."""

    main: Sequence[Point]
    branches: Sequence[Sequence[Point]] = ()
    islands: Sequence[Sequence[Point]] = ()

    @property
    def lines(self) -> list[Sequence[Point]]:
        """Every line, the main one first."""
        return [self.main, *self.branches, *self.islands]


def crack_sketch(crack: Drawn, layout: PortLayout, title: str, description: str) -> str:
    """The face of the member with the crack, its ports and its dimensions.

    The ports' rings are not to scale, everything else is. The first port is filled. Every port is
    numbered as long as there is room beside it; a number that has none is left out.

    Inputs:
        crack: the lines that the layout was made from, mm
        layout: the ports in the order of injection, mm
        title, description: in the reader's language
    Result: SVG text.
    Source: ports-ends-junctions, ports-islands-branches
    """
    tallest = min(TALLEST, max(LOWEST, HEIGHT_FOR_A_PORT * layout.count))
    face = face_of(crack.lines, tallest)
    lines = [[face.at(point) for point in line] for line in crack.lines]
    places = [face.at((port.x_mm, port.y_mm)) for port in layout.ports]
    radius = _radius(layout.ports, places)
    parts = [
        *concrete(face),
        *(path(line, "crack-seal") for line in lines),
        *(path(line, "ink") for line in lines),
        *_numbers(face, layout.ports, places, lines, radius),
        *(_ring(number, place, radius) for number, place in enumerate(places, start=1)),
        *dimensions(face),
    ]
    return picture("sketch", WIDTH, face.sheet_height, title, description, parts)


def _ring(number: int, place: Point, radius: float) -> str:
    return tag(
        "circle", class_="resin" if number == 1 else "port-ring", cx=place[0], cy=place[1], r=radius
    )


def _radius(ports: Sequence[Port], places: Sequence[Point]) -> float:
    """Rings as large as the closest two neighbours allow."""
    gaps = [
        math.dist(places[port.number - 1], places[other - 1])
        for port in ports
        for other in port.neighbours
        if other > port.number
    ]
    return max(SMALLEST_RADIUS, min(LARGEST_RADIUS, min(gaps, default=99.0) * 0.4))


def _numbers(
    face: Face,
    ports: Sequence[Port],
    places: Sequence[Point],
    lines: Sequence[Sequence[Point]],
    radius: float,
) -> list[str]:
    room = Room(Box(SIDE + PAD / 3, TOP, WIDTH - TOP - PAD / 3, TOP + face.height))
    for place in places:
        room.take(around(place, radius))
    for line in lines:
        for point in _along(line, SIZE / 2):
            room.take(around(point, 1.5))
    parts: list[str] = []
    for port, place in zip(ports, places, strict=True):
        spots = _spots(port, place, _is_level(port, places), radius)
        free = room.first_free([box for _, box in spots])
        if free is None:
            continue
        foot, box = spots[free]
        if free > 1:  # not beside its port: a thin line leads to it
            near = (
                min(max(place[0], box.left), box.right),
                min(max(place[1], box.top), box.bottom),
            )
            parts.append(path([place, near], "hatch"))
        parts.append(words_at(*foot, str(port.number), SIZE, "middle"))
    return parts


def _is_level(port: Port, places: Sequence[Point]) -> bool:
    """Whether the crack runs across the sheet here, so that numbers go above and below."""
    here = places[port.number - 1]
    runs = [
        (abs(places[n - 1][0] - here[0]), abs(places[n - 1][1] - here[1])) for n in port.neighbours
    ]
    return sum(x for x, _ in runs) > sum(y for _, y in runs)


def _spots(port: Port, place: Point, is_level: bool, radius: float) -> list[tuple[Point, Box]]:
    """Where the number may stand, best first: the foot of its letters and the box it needs."""
    wide = DIGIT * len(str(port.number))
    side = 1 if port.number % 2 else -1
    spots: list[tuple[Point, Box]] = []
    for row in range(ROWS):
        for sign in (side, -side):
            if is_level:
                away = radius + 4 + SIZE / 2 + row * (SIZE + 2)
                middle = (place[0], place[1] - sign * away)
            else:
                away = radius + 4 + wide / 2 + row * (2.2 * DIGIT + 4)
                middle = (place[0] + sign * away, place[1])
            half = (wide / 2, SIZE / 2 - 1)
            box = Box(
                *(middle[0] - half[0], middle[1] - half[1]),
                *(middle[0] + half[0], middle[1] + half[1]),
            )
            spots.append(((middle[0], middle[1] + SIZE * 0.36), box))
    return spots


def _along(line: Sequence[Point], step: float) -> list[Point]:
    found: list[Point] = []
    for (ax, ay), (bx, by) in pairwise(line):
        pieces = max(1, math.ceil(math.dist((ax, ay), (bx, by)) / step))
        found += [
            (ax + (bx - ax) * n / pieces, ay + (by - ay) * n / pieces) for n in range(pieces + 1)
        ]
    return found
