"""The face of the member in the picture: from mm, y upwards, to the sheet, y downwards."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.drawing.svg import Point, number, path, tag, words_at
from app.trade.showing import show

WIDTH = 360.0
TOP, SIDE, FOOT = 8.0, 46.0, 40.0  # around the face; dimensions stand in the last two
PAD = 34.0  # from the edge of the face to the crack, room for numbers and hatch
LEAST_FACE = 118.0
HATCH = 10.0
FLAT = 0.04  # an extent below this share of the other is a line's wobble, not worth a dimension


@dataclass(frozen=True, slots=True)
class Face:
    """The scale of the sketch and where its corner lies; units of the sheet for each mm."""

    scale: float
    left_mm: float
    low_mm: float
    width_mm: float
    height_mm: float
    height: float  # of the face on the sheet

    def at(self, point: Point) -> Point:
        """The place of a point of the crack on the sheet."""
        slack = WIDTH - SIDE - TOP - self.width_mm * self.scale
        rise = (self.height - self.height_mm * self.scale) / 2
        x = SIDE + slack / 2 + (point[0] - self.left_mm) * self.scale
        return x, TOP + self.height - rise - (point[1] - self.low_mm) * self.scale

    @property
    def sheet_height(self) -> float:
        """Height of the whole picture."""
        return TOP + self.height + (FOOT if self.is_wide else TOP)

    @property
    def is_wide(self) -> bool:
        """Whether the crack's extent across is worth a dimension."""
        return self.width_mm > FLAT * self.height_mm


def face_of(lines: Sequence[Sequence[Point]], tallest: float) -> Face:
    """The largest scale at which all lines fit, the crack at most `tallest` high on the sheet."""
    xs = [x for line in lines for x, _ in line]
    ys = [y for line in lines for _, y in line]
    width, height = max(xs) - min(xs), max(ys) - min(ys)
    room = WIDTH - SIDE - TOP - 2 * PAD
    scale = min(
        room / width if width else float("inf"), tallest / height if height else float("inf")
    )
    return Face(scale, min(xs), min(ys), width, height, max(LEAST_FACE, height * scale + 2 * PAD))


def concrete(face: Face) -> list[str]:
    """The face itself, hatched along both sides as cut concrete is."""
    right = WIDTH - TOP
    strokes = [
        f"M{number(x)} {number(y + HATCH)}l{number(HATCH)} -{number(HATCH)}"
        for x in (SIDE, right - HATCH)
        for y in _steps(TOP, TOP + face.height - HATCH, HATCH * 1.2)
    ]
    return [
        tag("rect", class_="concrete", x=SIDE, y=TOP, width=right - SIDE, height=face.height),
        tag("path", class_="hatch", d="".join(strokes)),
    ]


def dimensions(face: Face) -> list[str]:
    """The extents of the crack, up and across, each in both systems of units."""
    corner = (face.left_mm, face.low_mm)
    x, y = face.at(corner)
    far_x, far_y = face.at((corner[0] + face.width_mm, corner[1] + face.height_mm))
    parts: list[str] = []
    if face.height_mm > FLAT * face.width_mm:
        line, middle = SIDE - 14, (y + far_y) / 2
        parts += _line((line, far_y), (line, y), (6.0, 0.0))
        turned = f"rotate(-90 {number(line - 8)} {number(middle)})"
        words = both(face.height_mm)
        parts.append(words_at(line - 8, middle, words, 15, "middle", transform=turned))
    if face.is_wide:
        line = TOP + face.height + 12
        parts += _line((x, line), (far_x, line), (0.0, 6.0))
        parts.append(words_at((x + far_x) / 2, line + 20, both(face.width_mm), 15, "middle"))
    return parts


def both(length_mm: float) -> str:
    """A length in both systems: "3658 mm / 12 ft"."""
    return f"{show(length_mm, 'length', 'metric')} / {show(length_mm, 'length', 'us')}"


def _line(start: Point, end: Point, tick: Point) -> list[str]:
    ends = [[(x - tick[0], y - tick[1]), (x + tick[0], y + tick[1])] for x, y in (start, end)]
    return [path([start, end], "ink-thin"), *(path(points, "ink") for points in ends)]


def _steps(start: float, end: float, step: float) -> list[float]:
    return [start + step * n for n in range(int((end - start) / step) + 1)]
