"""Can the resin reach the next port before it gels? A warning, not a promise."""

from dataclasses import dataclass

from app.trade.calculator import Calculator, Input, Output, calculator
from app.trade.errors import OutOfRange
from app.trade.radial_flow import PORT_RADIUS, radial_area, radial_reach
from app.trade.slot_flow import PRESSURE, ROUGHNESS, WIDTH, front_speed, reach
from app.trade.viscosity import GROWTH, VISCOSITY, clock_time

SPACING = Input("spacing_mm", "mm", 1, 5000, says="from this port to the next")
GEL_TIME = Input("gel_time_min", "min", 1, 1440, says="left before the resin gels")


@dataclass(frozen=True, slots=True)
class NextPortReach:
    """Reach within the gel time by two shapes of front, against the next port."""

    spacing_mm: float
    straight_reach_mm: float
    radial_reach_mm: float
    straight_time_min: float | None  # None: never, however long the gel time
    radial_time_min: float | None
    verdict: str  # reached | in-doubt | not-before-gel
    is_within: bool  # both fronts arrive before gel


def next_port_reach(
    spacing_mm: float,
    width_mm: float,
    pressure_mpa: float,
    viscosity_pa_s: float,
    gel_time_min: float,
    port_radius_mm: float,
    roughness: float = 1,
    growth_per_min: float = 0,
) -> NextPortReach:
    """Can the front reach the next port within the gel time? By a straight and by a round front.

    In a crack shallower than the spacing the front soon runs straight along it; in a deep one it
    spreads round from the port. The real front lies between. Both are the upper bound of a smooth
    crack at full pressure, so "reached" is no proof, and "not-before-gel" is a warning to take.

    Inputs:
        spacing_mm: from this port's centre to the next, mm; not less than port_radius_mm
        width_mm: mean gauge width, mm
        pressure_mpa: at the port, less the head of resin, MPa
        viscosity_pa_s: mixed, when injecting starts, Pa·s
        gel_time_min: left before the resin gels, min
        port_radius_mm: of the opening onto the crack, mm
        roughness: hydraulic width over gauge width, 0.05 to 1
        growth_per_min: rate of the viscosity law, 1/min; 0 is no growth
    Result:
        spacing_mm: as given, mm
        straight_reach_mm: within the gel time, mm
        radial_reach_mm: within the gel time, mm
        straight_time_min: to the next port, min; None when it never arrives
        radial_time_min: to the next port, min; None when it never arrives
        verdict: reached by both, in-doubt when by one only, not-before-gel when by neither
        is_within: the verdict is reached
    Errors: OutOfRange outside the bounds of its inputs, or for a spacing inside the port.
    Source: straight-front, radial-front, hydraulic-width, viscosity-growth, viscosity-first-order
    Example:
        >>> next_port_reach(150, 0.05, 0.1, 0.5, 10, port_radius_mm=3).verdict
        'in-doubt'
    """
    SPACING.check(spacing_mm)
    PORT_RADIUS.check(port_radius_mm)
    if spacing_mm < port_radius_mm:
        raise OutOfRange("spacing_mm", spacing_mm, port_radius_mm, None, "mm")
    gel_time_s = GEL_TIME.check(gel_time_min) * 60
    slot = (width_mm, pressure_mpa, viscosity_pa_s)
    straight = reach(*slot, gel_time_s, roughness, growth_per_min)
    radial = radial_reach(gel_time_s, port_radius_mm, *slot, roughness, growth_per_min)
    speed = front_speed(*slot, roughness)
    arrivals = (straight >= spacing_mm) + (radial >= spacing_mm)
    return NextPortReach(
        spacing_mm,
        straight,
        radial,
        _minutes(clock_time(spacing_mm**2 / speed, growth_per_min)),
        _minutes(clock_time(radial_area(spacing_mm, port_radius_mm) / speed, growth_per_min)),
        ("not-before-gel", "in-doubt", "reached")[arrivals],
        is_within=arrivals == 2,
    )


def _minutes(time_s: float | None) -> float | None:
    return None if time_s is None else time_s / 60


CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        next_port_reach,
        "Can the resin reach the next port before it gels",
        (SPACING, WIDTH, PRESSURE, VISCOSITY, GEL_TIME, PORT_RADIUS, ROUGHNESS, GROWTH),
        (
            Output("spacing_mm", "mm"),
            Output("straight_reach_mm", "mm"),
            Output("radial_reach_mm", "mm"),
            Output("straight_time_min", "min"),
            Output("radial_time_min", "min"),
            Output("verdict", ""),
            Output("is_within", ""),
        ),
        (
            "straight-front",
            "radial-front",
            "hydraulic-width",
            "viscosity-growth",
            "viscosity-first-order",
        ),
    ),
)
