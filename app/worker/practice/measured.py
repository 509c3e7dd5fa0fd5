"""What a job card holds of its crack, lines and gauged widths, as the model takes it. Pure."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from itertools import pairwise
from types import MappingProxyType
from typing import TypeVar

from app.trade.crack_lines import CRACK, line_of
from app.trade.filling.parts import WIDTH, Branch, Port, WidthAt
from app.trade.port_layout import NotAttached, port_layout
from app.trade.spacing import port_positions
from app.trade.typed_lines import Pairs, read_gauges, read_line, read_lines
from app.trade.typed_number import Unreadable
from app.workbook.jobs import Job
from app.worker.practice.side_lines import Side, side_lines

MOST_PORTS = 12  # more rings than this do not fit a thumb on a phone
NOTHING_TYPED: Mapping[str, str] = MappingProxyType({})
Read = TypeVar("Read")


@dataclass(frozen=True, slots=True)
class Measured:
    """A crack and its ports; `said` names what the model leaves out or takes for granted."""

    length_m: float
    widths: tuple[WidthAt, ...]
    ports: tuple[Port, ...]
    said: tuple[str, ...]
    branches: tuple[Branch, ...] = ()

    @property
    def gap_m(self) -> float:
        """The smallest distance between two ports on the main crack, m."""
        places = sorted(port.at_m for port in self.ports if port.strip == 0)
        return min(b - a for a, b in pairwise(places))


@dataclass(frozen=True, slots=True)
class Drawn:
    """The lines of a crack, points in mm."""

    main: Pairs
    branches: tuple[Pairs, ...]
    islands: tuple[Pairs, ...]


def measured(job: Job, typed: Mapping[str, str], spacing_mm: float) -> Measured:
    """The job's crack with ports at a spacing.

    Inputs:
        job: as kept, lengths mm
        typed: the job card's fields as they were typed: path, branches, islands, gauges
        spacing_mm: largest gap between two ports, mm
    A crack that needs more than MOST_PORTS ports is taken as far as the last of them. Branches
    and islands are left out then, and where the model does not know them (see side_lines).
    Errors: OutOfRange for a spacing or a size that can't be.
    """
    drawn = Drawn(
        _read(typed, "path", read_line) or _straight(job),
        _read(typed, "branches", read_lines) or (),
        _read(typed, "islands", read_lines) or (),
    )
    length_mm = line_of(drawn.main, CRACK).length_mm
    widths = _widths(job, _read(typed, "gauges", read_gauges), length_mm / 1000)
    said = "even-width" if len(widths) == 1 else "gauged"
    main = _main_only(length_mm, widths, spacing_mm)
    if not (drawn.branches or drawn.islands):
        return replace(main, said=(said, "no-branches", *main.said))
    whole = _with_branches(job, drawn, main, spacing_mm)
    if whole is None:
        return replace(main, said=(said, "branches-left-out", *main.said))
    return replace(whole, said=(said, "branches-alike"))


def _read(typed: Mapping[str, str], name: str, reader: Callable[[str], Read]) -> Read | None:
    try:
        return reader(typed[name]) if typed.get(name) else None
    except Unreadable:
        return None  # kept by an older version; the page then says that nothing is known of it


def _straight(job: Job) -> Pairs:
    end = (0.0, job.length_mm) if job.orientation == "vertical" else (job.length_mm, 0.0)
    return ((0.0, 0.0), end)


def _widths(job: Job, gauges: Pairs | None, length_m: float) -> tuple[WidthAt, ...]:
    """The gauge's readings; where the crack has closed, the narrowest that the model takes."""
    found: dict[float, WidthAt] = {}
    for at_mm, width_mm in gauges or ((0.0, job.width_mm),):
        at_m = min(at_mm / 1000, length_m)
        found.setdefault(at_m, WidthAt(at_m, max(width_mm / 1000, WIDTH.low or 0)))
    return tuple(found.values())


def _main_only(length_mm: float, widths: tuple[WidthAt, ...], spacing_mm: float) -> Measured:
    places = port_positions(length_mm, spacing_mm)
    said = ("stretch",) if len(places) > MOST_PORTS else ()
    places = places[:MOST_PORTS]
    length_m = places[-1] / 1000
    ports = tuple(Port(place / 1000) for place in places)
    inside = [one for one in widths if one.at_m <= length_m]
    return Measured(length_m, tuple(inside), ports, said)


def _with_branches(job: Job, drawn: Drawn, main: Measured, spacing_mm: float) -> Measured | None:
    """The whole crack; None where it has too many ports or the model does not know its lines."""
    if "stretch" in main.said:
        return None
    sides = side_lines(drawn.main, drawn.branches, drawn.islands, main.widths)
    if sides is None:
        return None
    lines = (drawn.branches, drawn.islands)
    try:
        layout = port_layout(drawn.main, spacing_mm, job.orientation, *lines)
    except NotAttached:
        return None
    if layout.count > MOST_PORTS:
        return None
    ports = tuple(_port(port.line, port.at_mm / 1000, sides, main) for port in layout.ports)
    return replace(main, ports=ports, branches=tuple(side.branch for side in sides))


def _port(line: int, at_m: float, sides: tuple[Side, ...], main: Measured) -> Port:
    if line == 0:
        return Port(min(at_m, main.length_m))
    side = sides[line - 1]
    along = side.branch.length_m - at_m if side.is_turned else at_m
    return Port(min(max(along, 0.0), side.branch.length_m), line)
