"""Branches and strands around islands, drawn as lines, as branches of the model. Pure.

The model knows a branch that leaves the main crack with one of its ends, and a strand that leaves
it and comes back. It does not know branches of branches, crossings and rings.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from app.trade.calculator import Point
from app.trade.crack import mean_width
from app.trade.crack_lines import BRANCHES, CRACK, TOUCH_MM, Line, Meeting, line_of, meetings
from app.trade.filling.parts import Branch, WidthAt

Touch = tuple[float, float]  # along the side line, along the main crack, mm


@dataclass(frozen=True, slots=True)
class Side:
    """A branch of the model; `is_turned` where the line was drawn towards the main crack."""

    branch: Branch
    is_turned: bool


def side_lines(
    main: Sequence[Point],
    branches: Sequence[Sequence[Point]],
    islands: Sequence[Sequence[Point]],
    widths: Sequence[WidthAt],
) -> tuple[Side, ...] | None:
    """The side lines in their order, of the main crack's mean width; None for one not known.

    Inputs: points in mm, y upwards; widths in m
    """
    lines = [
        line_of(path, CRACK if n == 0 else BRANCHES)
        for n, path in enumerate([main, *branches, *islands])
    ]
    met = meetings(lines)
    width_m = _mean_m(widths)
    found: list[Side] = []
    for index in range(1, len(lines)):
        touches = _touches(index, met)
        if touches is None:
            return None
        comes_back = index > len(branches)
        side = (_strand if comes_back else _branch)(lines[index], touches, width_m)
        if side is None:
            return None
        found.append(side)
    return tuple(found)


def _mean_m(widths: Sequence[WidthAt]) -> float:
    if len(widths) == 1:
        return widths[0].width_m
    places = [one.at_m * 1000 for one in widths]
    return mean_width(places, [one.width_m * 1000 for one in widths]) / 1000


def _touches(index: int, met: Sequence[Meeting]) -> list[Touch] | None:
    """Where a line touches the main crack, one touch for each place; None if it meets another."""
    found: list[Touch] = []
    for meeting in met:
        if index not in (meeting.line, meeting.other):
            continue
        if meeting.line != 0:  # pairs are in order, so the main crack would stand first
            return None
        along, on_main = meeting.other_at_mm, meeting.at_mm
        if all(abs(along - other) > 2 * TOUCH_MM for other, _ in found):
            found.append((along, on_main))
    return sorted(found)


def _is_start(along_mm: float) -> bool:
    return along_mm <= 2 * TOUCH_MM


def _is_end(along_mm: float, line: Line) -> bool:
    return line.length_mm - along_mm <= 2 * TOUCH_MM


def _branch(line: Line, touches: list[Touch], width_m: float) -> Side | None:
    if len(touches) != 1:
        return None
    along, on_main = touches[0]
    is_turned = _is_end(along, line)
    if not (is_turned or _is_start(along)):
        return None
    start, end = (line.points[0][1], line.points[-1][1])[:: -1 if is_turned else 1]
    length_m = line.length_mm / 1000
    rise = max(-1.0, min(1.0, (end - start) / line.length_mm))
    return Side(Branch(on_main / 1000, length_m, (WidthAt(0, width_m),), rise), is_turned)


def _strand(line: Line, touches: list[Touch], width_m: float) -> Side | None:
    if len(touches) != 2 or not (_is_start(touches[0][0]) and _is_end(touches[1][0], line)):
        return None
    leaves, returns = touches[0][1] / 1000, touches[1][1] / 1000
    is_turned = leaves > returns
    first, last = sorted((leaves, returns))
    length_m = max(line.length_mm / 1000, last - first)
    return Side(Branch(first, length_m, (WidthAt(0, width_m),), rejoins_m=last), is_turned)
