"""Where the ports go on a crack with branches and islands, numbered in the order of injection."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from app.trade.calculator import Input, Output, Point, calculator
from app.trade.crack_lines import (
    BRANCHES,
    CRACK,
    ISLANDS,
    Line,
    Meeting,
    line_of,
    meetings,
)
from app.trade.crack_network import Network, Port, network_of
from app.trade.errors import NotListed, OutOfRange, Refusal
from app.trade.injection_order import ORIENTATION, START_AT, order_of
from app.trade.spacing import SPACING

ISLAND_SPACING = Input(
    *("island_spacing_mm", "mm", 5, 2000),
    default=None,
    says="closer spacing around islands; half the spacing when left out",
)
WIDEST_AT = Input(
    *("widest_at_mm", "mm", 0, 1_000_000),
    default=None,
    says="where the main crack is widest, from its first end",
)
MOST_POINTS = 400


class NotAttached(Refusal):
    """A branch or island strand that does not touch the rest of the crack."""

    template = "{name} number {number} does not touch the crack. Where does it join?"


class WidestNotKnown(Refusal):
    """Starting at the widest part without saying where that is."""

    template = "Where is the crack widest? Starting there needs the place along the crack."


@dataclass(frozen=True, slots=True)
class PortLayout:
    """The ports of a crack in the order of injection."""

    ports: tuple[Port, ...]
    count: int
    length_mm: float  # of all lines together
    largest_gap_mm: float  # along the crack


def port_layout(
    crack_mm: Sequence[Point],
    spacing_mm: float,
    orientation: str,
    branches_mm: Sequence[Sequence[Point]] = (),
    islands_mm: Sequence[Sequence[Point]] = (),
    island_spacing_mm: float | None = None,
    start_at: str = "first-end",
    widest_at_mm: float | None = None,
) -> PortLayout:
    """Ports for a crack drawn as lines: at ends and junctions, and along it within the spacing.

    Inputs:
        crack_mm: the main crack as points (x, y), y upwards, mm
        spacing_mm: largest distance between ports along the crack, mm
        orientation: vertical, horizontal or overhead
        branches_mm: branches as paths, mm
        islands_mm: strands around islands of concrete, as paths or rings, mm
        island_spacing_mm: around islands, mm; half of spacing_mm when left out
        start_at: first-end, last-end or widest; a vertical crack starts at its lowest port
        widest_at_mm: where the main crack is widest, mm from its first end
    Result:
        layout: PortLayout(ports, count, length_mm, largest_gap_mm), mm
    Errors: OutOfRange, NotAChoice, NotListed; NotAttached for a line that touches nothing;
        WidestNotKnown when starting at the widest part without its place.
    Source: ports-ends-junctions, ports-islands-branches, injection-lowest-first,
        injection-end-to-end, injection-widest-first, injection-overhead
    Example:
        >>> layout = port_layout([(0, 0), (0, 900)], 300, "vertical", [[(0, 600), (200, 700)]])
        >>> [(port.x_mm, port.y_mm) for port in layout.ports]
        [(0.0, 0.0), (0.0, 300.0), (0.0, 600.0), (200.0, 700.0), (0.0, 900.0)]
    """
    SPACING.check(spacing_mm)
    ORIENTATION.check_choice(orientation)
    START_AT.check_choice(start_at)
    close = _island_spacing(island_spacing_mm, spacing_mm)
    lines = _checked_lines(crack_mm, branches_mm, islands_mm)
    met = meetings(lines)
    _refuse_loose(len(lines), len(branches_mm), met)
    network = network_of(lines, met, 1 + len(branches_mm), spacing_mm, close)
    first = _first_port(network, lines[0], start_at, widest_at_mm)
    return _numbered(network, lines, order_of(_heights(network), network.links, orientation, first))


def _island_spacing(island_spacing_mm: float | None, spacing_mm: float) -> float:
    close = ISLAND_SPACING.check_optional(island_spacing_mm)
    if close is None:
        return spacing_mm / 2
    if close > spacing_mm:
        raise OutOfRange("island_spacing_mm", close, ISLAND_SPACING.low, spacing_mm, "mm")
    return close


def _checked_lines(
    crack: Sequence[Point],
    branches: Sequence[Sequence[Point]],
    islands: Sequence[Sequence[Point]],
) -> tuple[Line, ...]:
    total = len(crack) + sum(map(len, branches)) + sum(map(len, islands))
    if total > MOST_POINTS:
        raise NotListed("crack_mm", total, f"at most {MOST_POINTS} points in all")
    main = line_of(crack, CRACK)
    return (
        *(main, *(line_of(path, BRANCHES) for path in branches)),
        *(line_of(path, ISLANDS) for path in islands),
    )


def _refuse_loose(count: int, branches: int, met: Sequence[Meeting]) -> None:
    reached, before = {0}, 0
    while len(reached) > before:
        before = len(reached)
        for meeting in met:
            if {meeting.line, meeting.other} & reached:
                reached |= {meeting.line, meeting.other}
    for line in range(count):
        if line not in reached:
            is_branch = line <= branches
            name = "Branch" if is_branch else "Island"
            raise NotAttached(name=name, number=line if is_branch else line - branches)


def _first_port(network: Network, main: Line, start_at: str, widest_at_mm: float | None) -> int:
    widest = WIDEST_AT.check_optional(widest_at_mm)
    if start_at == "widest" and widest is None:
        raise WidestNotKnown
    if widest is not None and widest > main.length_mm:
        raise OutOfRange("widest_at_mm", widest, 0, main.length_mm, "mm")
    at = {"first-end": 0.0, "last-end": main.length_mm, "widest": widest or 0.0}[start_at]
    place = main.point(at)
    return min(
        range(len(network.ports)),
        key=lambda node: math.dist((network.ports[node].x_mm, network.ports[node].y_mm), place),
    )


def _heights(network: Network) -> list[tuple[float, float]]:
    return [(port.y_mm, port.x_mm) for port in network.ports]


def _numbered(network: Network, lines: Sequence[Line], order: Sequence[int]) -> PortLayout:
    number = {node: place for place, node in enumerate(order, start=1)}
    ports = tuple(
        replace(
            network.ports[node],
            number=number[node],
            neighbours=tuple(sorted(number[other] for other in network.links[node])),
        )
        for node in order
    )
    largest = max(network.gaps)
    return PortLayout(ports, len(ports), sum(line.length_mm for line in lines), largest)


_LAYOUT = (
    *(Output("ports", ""), Output("count", "count")),
    *(Output("length_mm", "mm"), Output("largest_gap_mm", "mm")),
)
_PLACES = (CRACK, SPACING, ORIENTATION, BRANCHES, ISLANDS, ISLAND_SPACING, START_AT, WIDEST_AT)

CALCULATORS = (
    calculator(
        port_layout,
        "Ports on a crack with branches",
        _PLACES,
        _LAYOUT,
        (
            *("ports-ends-junctions", "ports-islands-branches", "injection-lowest-first"),
            *("injection-end-to-end", "injection-widest-first", "injection-overhead"),
        ),
    ),
)
