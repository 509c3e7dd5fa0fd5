"""In what order ports are injected, and which comes next."""

import heapq
from collections.abc import Mapping, Sequence
from itertools import pairwise

from app.trade.calculator import Input, Output, calculator
from app.trade.errors import NotListed, OutOfRange

ORIENTATION = Input(
    *("orientation", "", None, None, "choice", ("vertical", "horizontal", "overhead")),
    says="how the crack runs: up a wall, along it or on a floor, or on an underside",
)
START_AT = Input(
    *("start_at", "", None, None, "choice", ("first-end", "last-end", "widest")),
    default="first-end",
    says="for horizontal and overhead cracks; widest is a named variant",
)
POSITIONS = Input(
    "positions_mm", "mm", 0, 1_000_000, "numbers", says="ports along the crack; heights if vertical"
)
WIDTHS = Input(
    "widths_mm", "mm", 0, 25, "numbers", default=(), says="width at each port, to start at widest"
)
PORT = Input("port", "count", 1, 10_000, "count", says="port being pumped")
COUNT = Input("count", "count", 2, 10_000, "count", says="ports in all")
START = Input(
    *("start", "", None, None, "choice", ("low", "high")),
    default="low",
    says="low: port 1 is the lowest, or where work begins; high: the last port is",
)


def next_port(port: int, count: int, orientation: str, start: str = "low") -> int:
    """The port to move to once resin shows there and the one being pumped is capped.

    Ports are numbered along the crack. A vertical crack is worked upwards, so `start` says which
    end of the numbers is the lowest; other cracks are worked end to end from there.

    Inputs:
        port: number of the port being pumped, count
        count: ports in all, count
        orientation: vertical, horizontal or overhead
        start: low when port 1 is the lowest or first, high when the last port is
    Result:
        port: count; 0 when every port has had its turn
    Errors: OutOfRange, NotAChoice
    Source: injection-lowest-first, injection-end-to-end, injection-overhead
    Example:
        >>> next_port(3, 8, "vertical"), next_port(3, 8, "vertical", "high")
        (4, 2)
    """
    PORT.check(port)
    COUNT.check(count)
    ORIENTATION.check_choice(orientation)
    START.check_choice(start)
    if port > count:
        raise OutOfRange("port", port, 1, count, "count")
    following = port + (1 if start == "low" else -1)
    return following if 1 <= following <= count else 0


def injection_order(
    positions_mm: Sequence[float],
    orientation: str,
    start_at: str = "first-end",
    widths_mm: Sequence[float] = (),
) -> tuple[int, ...]:
    """Port numbers in the order they are injected, for a crack without branches.

    Port 1 is the first of the list. From the widest port work goes outwards, nearest first.

    Inputs:
        positions_mm: ports along the crack, rising, mm; heights when vertical
        orientation: vertical, horizontal or overhead
        start_at: first-end, last-end or widest; a vertical crack starts at its lowest port
        widths_mm: width at each port, mm; only to start at the widest
    Result:
        order: port numbers, count
    Errors: OutOfRange, NotAChoice; NotListed for fewer than two ports, positions that do not rise,
        or widths that do not match the ports.
    Source: injection-lowest-first, injection-end-to-end, injection-widest-first, injection-overhead
    Example:
        >>> injection_order([0, 150, 300, 450], "horizontal", "widest", [0.2, 0.2, 0.5, 0.3])
        (3, 2, 4, 1)
    """
    places = POSITIONS.check_all(positions_mm, at_least=2)
    ORIENTATION.check_choice(orientation)
    START_AT.check_choice(start_at)
    if any(after <= before for before, after in pairwise(places)):
        raise NotListed("positions_mm", list(places), "each port must lie beyond the one before")
    first = {"first-end": 0, "last-end": len(places) - 1}.get(start_at)
    if first is None:
        first = _widest(WIDTHS.check_all(widths_mm, at_least=0), len(places))
    links: dict[int, dict[int, float]] = {node: {} for node in range(len(places))}
    for node, (before, after) in enumerate(pairwise(places)):
        links[node][node + 1] = links[node + 1][node] = after - before
    heights = [(place, 0.0) for place in places]
    return tuple(node + 1 for node in order_of(heights, links, orientation, first))


def _widest(widths: Sequence[float], count: int) -> int:
    if len(widths) != count:
        raise NotListed("widths_mm", len(widths), f"{count} widths needed, one a port")
    return max(range(count), key=widths.__getitem__)


def order_of(
    heights: Sequence[tuple[float, float]],
    links: Mapping[int, Mapping[int, float]],
    orientation: str,
    first: int,
) -> list[int]:
    """Nodes of a network of ports in the order of injection.

    Vertical: from the lowest up, by (height, sideways). Otherwise from `first` outwards, nearest
    along the crack first, so that each port after the first lies next to one already injected.
    """
    if orientation == "vertical":
        return sorted(range(len(heights)), key=lambda node: heights[node])
    reached: dict[int, float] = {}
    frontier = [(0.0, first)]
    while frontier:
        way, node = heapq.heappop(frontier)
        if node in reached:
            continue
        reached[node] = way
        for other, gap in links[node].items():
            heapq.heappush(frontier, (way + gap, other))
    return list(reached)


_SOURCES = (
    *("injection-lowest-first", "injection-end-to-end"),
    *("injection-widest-first", "injection-overhead"),
)
_NEXT_SOURCES = ("injection-lowest-first", "injection-end-to-end", "injection-overhead")

CALCULATORS = (
    calculator(
        next_port,
        "The next port",
        (PORT, COUNT, ORIENTATION, START),
        (Output("port", "count"),),
        _NEXT_SOURCES,
    ),
    calculator(
        injection_order,
        "Order of injection",
        (POSITIONS, ORIENTATION, START_AT, WIDTHS),
        (Output("order", "count"),),
        _SOURCES,
    ),
)
