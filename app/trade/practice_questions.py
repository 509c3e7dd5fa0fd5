"""What the crack-fill model answers to a quiz: which port shows first, which next, how deep.

Each function injects a small crack of one shape in the model (fill.py). What the quizzes ask for is
kept in practice_answers.py, so that a start of the program need not load the model; a test works
every kept answer out again. Anything else within the bounds is worked out when it is asked.
"""

from functools import cache
from typing import TYPE_CHECKING

from app.trade.calculator import Calculator, Input, Output, calculator
from app.trade.errors import NotListed
from app.trade.practice_answers import DEPTHS, FIRSTS, NEXTS

if TYPE_CHECKING:
    from app.trade.filling.actions import Event
    from app.trade.filling.crack import Crack

PORTS = 6
WIDTH_FIRST = Input("width_first_mm", "mm", 0.1, 1, says="of the crack at port 1")
WIDTH_LAST = Input("width_last_mm", "mm", 0.1, 1, says="of the crack at port 6")
HOSE = Input("port", "count", 2, PORTS - 1, "count", says="where the hose is; all others open")
FROM = Input("port", "count", 1, PORTS - 1, "count", says="where the hose is; lower ones capped")
BLOCKED = Input("blocked", "count", 1, PORTS, "count", says="a port above that nothing passes")
SPACING = Input("spacing_mm", "mm", 25, 600, says="from one port to the next")
DEPTH = Input("depth_mm", "mm", 50, 600, says="of the crack into the member")

_VISCOSITY_PA_S, _PRESSURE_PA, _WIDTH_MM = 0.3, 150_000.0, 0.3
_SPACING_MM, _DEPTH_MM = 150.0, 150.0
_LONGEST_S = 80_000.0
_CELLS_A_GAP, _FEWEST_ROWS, _MOST_ROWS = 16, 6, 64
_NEVER = 255  # in an arrival map


def port_that_shows_first(width_first_mm: float, width_last_mm: float, port: int) -> int:
    """At which port resin shows first when the hose is in the middle of a crack that tapers.

    In the model: a level crack with six ports 150 mm apart, 150 mm deep, its width in a straight
    line from port 1 to port 6; every port is open, one is pumped at 0.15 MPa.

    Inputs:
        width_first_mm: width at port 1, mm
        width_last_mm: width at port 6, mm
        port: where the hose is, count; neither end
    Result:
        port: count; the lower number where two show at the same time
    Errors: OutOfRange outside the bounds of its inputs.
    Source: cubic-law, straight-front, radial-front
    Example:
        >>> port_that_shows_first(0.2, 0.5, 3), port_that_shows_first(0.6, 0.3, 3)
        (4, 2)
    """
    asked = (
        WIDTH_FIRST.check(width_first_mm),
        WIDTH_LAST.check(width_last_mm),
        HOSE.check(port),
    )
    kept = FIRSTS.get((float(asked[0]), float(asked[1]), int(asked[2])))
    return kept or _first(*asked)


def port_that_shows_next(port: int, blocked: int, spacing_mm: float, depth_mm: float) -> int:
    """At which port resin shows next on a crack up a wall when one port is blocked.

    In the model: six ports one above the other, 0.3 mm wide; those below the hose are capped, those
    above are open, but nothing passes through the blocked one. Pumped at 0.15 MPa.

    Inputs:
        port: where the hose is, count from the lowest
        blocked: which port above it is blocked, count
        spacing_mm: from port to port, mm
        depth_mm: of the crack, mm
    Result:
        port: count
    Errors: OutOfRange outside the bounds of its inputs; NotListed unless the blocked port lies
        above the hose and leaves one open.
    Source: cubic-law, straight-front, radial-front
    Example:
        >>> port_that_shows_next(2, 3, 150, 200)
        4
    """
    FROM.check(port)
    BLOCKED.check(blocked)
    asked = (
        int(port),
        int(blocked),
        float(SPACING.check(spacing_mm)),
        float(DEPTH.check(depth_mm)),
    )
    if blocked <= port or {*range(port + 1, PORTS + 1)} == {blocked}:
        raise NotListed("blocked", blocked, "must lie above the hose and leave a port open")
    return NEXTS.get(asked) or _next(*asked)


def depth_reached_at_next_port(spacing_mm: float, depth_mm: float) -> float:
    """How deep resin has got below the first port when it shows at the second.

    In the model: a level crack 0.3 mm wide with three ports, the first one pumped at 0.15 MPa;
    told to a twentieth of the depth. The same at any width, pressure and viscosity.

    Inputs:
        spacing_mm: from port to port, mm
        depth_mm: of the crack, mm
    Result:
        depth_mm: mm, not more than the crack is deep
    Errors: OutOfRange outside the bounds of its inputs.
    Source: cubic-law, radial-front, spacing-why
    Example:
        >>> depth_reached_at_next_port(200, 100), 90 < depth_reached_at_next_port(100, 400) < 125
        (100.0, True)
    """
    asked = (float(SPACING.check(spacing_mm)), float(DEPTH.check(depth_mm)))
    return DEPTHS.get(asked) or _depth(*asked)


def _crack(
    spacing_mm: float,
    depth_mm: float,
    widths_mm: tuple[float, float],
    ports: tuple[int, ...],
    orientation: str = "horizontal",
) -> "Crack":
    """Ports in the middle of blocks, so that the grid favours no side; sixteen blocks to a gap.

    ports: their places, counted in gaps from the first; the crack ends half a block beyond the
    outer two.
    """
    from app.trade.filling.crack import Crack
    from app.trade.filling.parts import Port, WidthAt
    from app.trade.filling.supply import Pump, Resin

    block_m = spacing_mm / 1000 / _CELLS_A_GAP
    columns = _CELLS_A_GAP * ports[-1] + 1
    rows = round(depth_mm / spacing_mm * _CELLS_A_GAP)
    return Crack(
        length_m=block_m * columns,
        depth_m=depth_mm / 1000,
        widths=(
            WidthAt(0, widths_mm[0] / 1000),
            WidthAt(block_m * columns, widths_mm[1] / 1000),
        ),
        ports=tuple(Port(block_m * (place * _CELLS_A_GAP + 0.5)) for place in ports),
        resin=Resin(_VISCOSITY_PA_S, gel_time_s=_LONGEST_S),
        pump=Pump(_PRESSURE_PA, flow_m3_per_s=1e-3),
        orientation=orientation,
        columns=columns,
        rows=min(_MOST_ROWS, max(_FEWEST_ROWS, rows)),
    )


@cache
def _first(width_first_mm: float, width_last_mm: float, port: int) -> int:
    from app.trade.fill import move_to, pump, run, watch

    crack = _crack(_SPACING_MM, _DEPTH_MM, (width_first_mm, width_last_mm), tuple(range(PORTS)))
    return _shown(run(crack, (move_to(port), pump(), watch(_LONGEST_S, "resin-at-port"))).events)


@cache
def _next(port: int, blocked: int, spacing_mm: float, depth_mm: float) -> int:
    from app.trade.fill import cap, move_to, pump, run, watch

    numbers = [number for number in range(1, PORTS + 1) if number != blocked]
    places = tuple(number - 1 for number in numbers)
    crack = _crack(spacing_mm, depth_mm, (_WIDTH_MM, _WIDTH_MM), places, "vertical")
    hose = numbers.index(port) + 1
    below = [cap(number) for number in range(1, hose)]
    acts = (*below, move_to(hose), pump(), watch(_LONGEST_S, "resin-at-port"))
    return numbers[_shown(run(crack, acts).events) - 1]


@cache
def _depth(spacing_mm: float, depth_mm: float) -> float:
    from app.trade.fill import move_to, pump, run, watch

    crack = _crack(spacing_mm, depth_mm, (_WIDTH_MM, _WIDTH_MM), (0, 1, 2))
    result = run(crack, (move_to(1), pump(), watch(_LONGEST_S, "resin-at-port", 2)))
    (_, blocks), *_ = result.arrival_map.sizes
    below = result.arrival_map.levels[:blocks]
    return round(sum(level != _NEVER for level in below) / blocks * depth_mm, 3)


def _shown(events: "tuple[Event, ...]") -> int:
    """The port of the first event of resin at a port; of two at one time the lower."""
    return min((e.at_s, e.number) for e in events if e.kind == "resin-at-port")[1]


CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        port_that_shows_first,
        "Port that shows first, in the model",
        (WIDTH_FIRST, WIDTH_LAST, HOSE),
        (Output("port", "count"),),
        ("cubic-law", "straight-front", "radial-front"),
    ),
    calculator(
        port_that_shows_next,
        "Port that shows next past a blocked one, in the model",
        (FROM, BLOCKED, SPACING, DEPTH),
        (Output("port", "count"),),
        ("cubic-law", "straight-front", "radial-front"),
    ),
    calculator(
        depth_reached_at_next_port,
        "Depth reached when the next port shows, in the model",
        (SPACING, DEPTH),
        (Output("depth_mm", "mm"),),
        ("cubic-law", "radial-front", "spacing-why"),
    ),
)
