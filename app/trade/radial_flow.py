"""A round front spreading from a port in a crack: the cubic law integrated radially.

τ = (6 μ / (w² Δp)) · [r² ln(r/r0) − (r² − r0²)/2], with r0 the radius of the port's opening and τ
the fluid time of viscosity.py. With z = 2 ln(r/r0) the bracket is r0² · (z e^z − e^z + 1) / 2.
"""

import math
from typing import Final

from app.trade.calculator import Calculator, Input, Output, calculator
from app.trade.errors import OutOfRange
from app.trade.slot_flow import DISTANCE, PRESSURE, ROUGHNESS, WIDTH, front_speed
from app.trade.viscosity import GROWTH, TIME, VISCOSITY, clock_time, fluid_time

PORT_RADIUS = Input("port_radius_mm", "mm", 0.1, 50, says="of the opening onto the crack")
# Below this z the bracket is summed as a series: the closed form would cancel.
_SERIES_BELOW: Final = 0.5


def radial_time(
    distance_mm: float,
    port_radius_mm: float,
    width_mm: float,
    pressure_mpa: float,
    viscosity_pa_s: float,
    roughness: float = 1,
    growth_per_min: float = 0,
) -> float:
    """How long a round front takes from a port to a distance, the port's radius included.

    Inputs:
        distance_mm: from the port's centre, mm; not less than the port's radius
        port_radius_mm: of the opening onto the crack, mm
        width_mm: mean gauge width, mm
        pressure_mpa: at the port, less the head of resin, MPa
        viscosity_pa_s: mixed, when injecting starts, Pa·s
        roughness: hydraulic width over gauge width, 0.05 to 1
        growth_per_min: rate of the viscosity law, 1/min; 0 is no growth
    Result:
        time_s: since injecting started, s
    Errors: OutOfRange outside the bounds of its inputs; OutOfRange for a distance_mm inside the
        port; OutOfRange for a distance_mm which growing viscosity never lets the front reach.
    Source: radial-front, hydraulic-width, viscosity-growth, viscosity-first-order
    Example:
        >>> round(radial_time(200, 3, 0.2, 0.1, 0.3), 1)
        66.6
    """
    speed = front_speed(width_mm, pressure_mpa, viscosity_pa_s, roughness)
    DISTANCE.check(distance_mm)
    if distance_mm < PORT_RADIUS.check(port_radius_mm):
        raise OutOfRange("distance_mm", distance_mm, port_radius_mm, None, "mm")
    time_s = clock_time(radial_area(distance_mm, port_radius_mm) / speed, growth_per_min)
    if time_s is None:
        farthest = _radius_at(speed * 60 / growth_per_min, port_radius_mm)
        raise OutOfRange("distance_mm", distance_mm, port_radius_mm, farthest, "mm")
    return time_s


def radial_reach(
    time_s: float,
    port_radius_mm: float,
    width_mm: float,
    pressure_mpa: float,
    viscosity_pa_s: float,
    roughness: float = 1,
    growth_per_min: float = 0,
) -> float:
    """How far a round front gets from a port in a time; the inverse of radial_time.

    Inputs:
        time_s: since injecting started, s
        port_radius_mm: of the opening onto the crack, mm
        width_mm: mean gauge width, mm
        pressure_mpa: at the port, less the head of resin, MPa
        viscosity_pa_s: mixed, when injecting starts, Pa·s
        roughness: hydraulic width over gauge width, 0.05 to 1
        growth_per_min: rate of the viscosity law, 1/min; 0 is no growth
    Result:
        distance_mm: from the port's centre, mm; the port's radius at time 0
    Errors: OutOfRange outside the bounds of its inputs.
    Source: radial-front, hydraulic-width, viscosity-growth, viscosity-first-order
    Example:
        >>> round(radial_reach(66.6, 3, 0.2, 0.1, 0.3))
        200
    """
    speed = front_speed(width_mm, pressure_mpa, viscosity_pa_s, roughness)
    return _radius_at(speed * fluid_time(time_s, growth_per_min), PORT_RADIUS.check(port_radius_mm))


def radial_area(distance_mm: float, port_radius_mm: float) -> float:
    """The bracket of the radial front, in mm²; zero at the port's own radius."""
    return port_radius_mm**2 * _bracket(2 * math.log(distance_mm / port_radius_mm)) / 2


def _bracket(z: float) -> float:
    if z >= _SERIES_BELOW:
        return z * math.exp(z) - math.expm1(z)
    return sum(z**n * (n - 1) / math.factorial(n) for n in range(2, 16))


def _radius_at(area_mm2: float, port_radius_mm: float) -> float:
    """The inverse of radial_area, by Newton's method.

    The bracket is convex and grows, so from above each step lands above the root and below the
    last: the first step that does not come down has arrived.
    """
    wanted = 2 * area_mm2 / port_radius_mm**2
    z = min(math.sqrt(2 * wanted), 1 + math.log1p(wanted))
    while z > 0:
        lower = z - (_bracket(z) - wanted) / (z * math.exp(z))
        if lower >= z:
            break
        z = lower
    return port_radius_mm * math.exp(max(z, 0) / 2)


_RADIAL = ("radial-front", "hydraulic-width", "viscosity-growth", "viscosity-first-order")

CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        radial_time,
        "Time of a round front",
        (DISTANCE, PORT_RADIUS, WIDTH, PRESSURE, VISCOSITY, ROUGHNESS, GROWTH),
        (Output("time_s", "s"),),
        _RADIAL,
    ),
    calculator(
        radial_reach,
        "Reach of a round front",
        (TIME, PORT_RADIUS, WIDTH, PRESSURE, VISCOSITY, ROUGHNESS, GROWTH),
        (Output("distance_mm", "mm"),),
        _RADIAL,
    ),
)
