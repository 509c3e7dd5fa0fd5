"""How a crack lies on the face of the wall: its lines in m, and its size in numbers. Pure."""

import math
from itertools import pairwise

from app.drawing.wall_front import Line
from app.trade.crack import crack_volume, mean_width
from app.trade.filling.crack import Crack, Strip
from app.trade.filling.parts import Branch, WidthAt


def lines_of(crack: Crack) -> tuple[Line, ...]:
    """The main crack, then the branches, to either side of it in turn."""
    is_upright = crack.orientation == "vertical"
    main = ((0.0, 0.0), (0.0, crack.length_m) if is_upright else (crack.length_m, 0.0))
    lines = [Line(main)]
    for place, branch in enumerate(crack.branches):
        side = 1.0 if place % 2 == 0 else -1.0
        points = _branch(branch, side)
        lines.append(Line(points if is_upright else tuple((y, x) for x, y in points)))
    return tuple(lines)


def _branch(branch: Branch, side: float) -> tuple[tuple[float, float], ...]:
    """As on an upright crack: y up along it, x to the side."""
    start, length = branch.at_m, branch.length_m
    if branch.rejoins_m is None:
        away = math.sqrt(max(1 - branch.rise**2, 0.0)) * length
        return (0.0, start), (side * away, start + branch.rise * length)
    half = abs(branch.rejoins_m - start) / 2
    bulge = math.sqrt(max((length / 2) ** 2 - half**2, 0.0))
    middle = (start + branch.rejoins_m) / 2
    return (0.0, start), (side * bulge, middle), (0.0, branch.rejoins_m)


def foot_of(strip: Strip) -> float:
    """Where a strip's lower (or first) end lies along the main crack, m."""
    return min(strip.foot_m, strip.foot_m + strip.rise * strip.length_m)


def volume_ml(crack: Crack) -> float:
    """The volume that the measured sizes give, as a job card works it out, mL."""
    return sum(
        crack_volume(strip.length_m * 1000, crack.depth_m * 1000, _mean_width_mm(strip))
        for strip in crack.strips
    )


def widths_mm(crack: Crack) -> tuple[float, float]:
    """The smallest and the largest width gauged, mm."""
    widths = [reading.width_m * 1000 for strip in crack.strips for reading in strip.widths]
    return min(widths), max(widths)


def spacing_mm(crack: Crack) -> tuple[float, float]:
    """The smallest and the largest gap between neighbours on one strip, mm."""
    gaps = []
    for strip in range(len(crack.strips)):
        places = sorted(port.at_m for port in crack.ports if port.strip == strip)
        gaps += [(b - a) * 1000 for a, b in pairwise(places)]
    return (min(gaps), max(gaps)) if gaps else (0.0, 0.0)


def _mean_width_mm(strip: Strip) -> float:
    readings = strip.widths
    if len(readings) == 1:
        return readings[0].width_m * 1000
    ends = (
        WidthAt(0, readings[0].width_m),
        *readings,
        WidthAt(strip.length_m, readings[-1].width_m),
    )
    places = sorted({one.at_m: one.width_m for one in ends}.items())
    return mean_width([at * 1000 for at, _ in places], [width * 1000 for _, width in places])
