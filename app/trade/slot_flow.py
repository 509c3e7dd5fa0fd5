"""Resin moving in a crack, seen as a slot between two planes: straight fronts in closed form.

- Cubic law: flow per unit breadth q = w³ Δp / (12 μ L).
- Straight front from a line source: L = w √(Δp τ / (6 μ)), τ the fluid time of viscosity.py.

w is the hydraulic width: the gauge width times a roughness factor of 1 or less. Δp is what is left
at the source: gauge pressure less the head of resin and the loss in the hose.
"""

import math

from app.trade.calculator import Calculator, Input, Output, calculator
from app.trade.errors import OutOfRange
from app.trade.viscosity import GROWTH, TIME, VISCOSITY, clock_time, fluid_time

WIDTH = Input("width_mm", "mm", 0.01, 10, says="mean gauge width of the crack")
PRESSURE = Input("pressure_mpa", "mpa", 0.001, 30, says="at the source, less the head of resin")
DISTANCE = Input("distance_mm", "mm", 0, 100_000, says="from the source to the front")
LENGTH = Input("length_mm", "mm", 1, 100_000, says="along the flow")
ROUGHNESS = Input(
    "roughness", "", 0.05, 1, default=1, says="hydraulic width over gauge width; 1 is smooth"
)


def flow_per_breadth(
    width_mm: float,
    pressure_mpa: float,
    viscosity_pa_s: float,
    length_mm: float,
    roughness: float = 1,
) -> float:
    """Steady flow through a filled slot, for each millimetre across the flow (cubic law).

    Inputs:
        width_mm: mean gauge width, mm
        pressure_mpa: difference over the length, MPa
        viscosity_pa_s: Pa·s
        length_mm: along the flow, mm
        roughness: hydraulic width over gauge width, 0.05 to 1
    Result:
        flow_mm2_per_s: mm³/s for each mm of breadth, mm²/s
    Errors: OutOfRange outside the bounds of its inputs.
    Source: cubic-law, hydraulic-width
    Example:
        >>> round(flow_per_breadth(0.2, 0.2, 0.3, 200), 3)
        2.222
    """
    LENGTH.check(length_mm)
    width = WIDTH.check(width_mm) * ROUGHNESS.check(roughness)
    drive = PRESSURE.check(pressure_mpa) * 1e6 / VISCOSITY.check(viscosity_pa_s)  # 1/s
    return float(width**3 * drive / (12 * length_mm))


def front_speed(
    width_mm: float, pressure_mpa: float, viscosity_pa_s: float, roughness: float = 1
) -> float:
    """w² Δp / (6 μ): the square of a straight front's reach grows by this much a second.

    Inputs:
        width_mm: mean gauge width, mm
        pressure_mpa: at the source, less the head of resin, MPa
        viscosity_pa_s: mixed, when injecting starts, Pa·s
        roughness: hydraulic width over gauge width, 0.05 to 1
    Result:
        speed_mm2_per_s: mm²/s
    Errors: OutOfRange outside the bounds of its inputs.
    Source: straight-front, hydraulic-width
    Example:
        >>> round(front_speed(0.2, 0.1, 0.3), 1)
        2222.2
    """
    width = WIDTH.check(width_mm) * ROUGHNESS.check(roughness)
    drive = PRESSURE.check(pressure_mpa) * 1e6 / VISCOSITY.check(viscosity_pa_s)  # 1/s
    return width**2 * drive / 6


def reach(
    width_mm: float,
    pressure_mpa: float,
    viscosity_pa_s: float,
    time_s: float,
    roughness: float = 1,
    growth_per_min: float = 0,
) -> float:
    """How far a straight front gets from a line source in a time.

    Inputs:
        width_mm: mean gauge width, mm
        pressure_mpa: at the source, less the head of resin, MPa
        viscosity_pa_s: mixed, when injecting starts, Pa·s
        time_s: since injecting started, s
        roughness: hydraulic width over gauge width, 0.05 to 1
        growth_per_min: rate of the viscosity law, 1/min; 0 is no growth
    Result:
        distance_mm: mm
    Errors: OutOfRange outside the bounds of its inputs.
    Source: straight-front, hydraulic-width, viscosity-growth, viscosity-first-order
    Example:
        >>> round(reach(0.2, 0.1, 0.3, 600))
        1155
    """
    speed = front_speed(width_mm, pressure_mpa, viscosity_pa_s, roughness)
    return math.sqrt(speed * fluid_time(time_s, growth_per_min))


def time_to_reach(
    distance_mm: float,
    width_mm: float,
    pressure_mpa: float,
    viscosity_pa_s: float,
    roughness: float = 1,
    growth_per_min: float = 0,
) -> float:
    """How long a straight front takes from a line source over a distance.

    Inputs:
        distance_mm: from the source, mm
        width_mm: mean gauge width, mm
        pressure_mpa: at the source, less the head of resin, MPa
        viscosity_pa_s: mixed, when injecting starts, Pa·s
        roughness: hydraulic width over gauge width, 0.05 to 1
        growth_per_min: rate of the viscosity law, 1/min; 0 is no growth
    Result:
        time_s: since injecting started, s
    Errors: OutOfRange outside the bounds of its inputs; OutOfRange for a distance_mm which growing
        viscosity never lets the front reach, with the farthest it gets as the upper bound.
    Source: straight-front, hydraulic-width, viscosity-growth, viscosity-first-order
    Example:
        >>> round(time_to_reach(200, 0.2, 0.1, 0.3), 1)
        18.0
    """
    speed = front_speed(width_mm, pressure_mpa, viscosity_pa_s, roughness)
    time_s = clock_time(DISTANCE.check(distance_mm) ** 2 / speed, growth_per_min)
    if time_s is None:
        farthest = math.sqrt(speed * 60 / growth_per_min)
        raise OutOfRange("distance_mm", distance_mm, 0, farthest, "mm")
    return time_s


_FRONT = ("straight-front", "hydraulic-width", "viscosity-growth", "viscosity-first-order")

CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        flow_per_breadth,
        "Flow through a filled crack",
        (WIDTH, PRESSURE, VISCOSITY, LENGTH, ROUGHNESS),
        (Output("flow_mm2_per_s", "mm2_per_s"),),
        ("cubic-law", "hydraulic-width"),
    ),
    calculator(
        front_speed,
        "How fast the square of a reach grows",
        (WIDTH, PRESSURE, VISCOSITY, ROUGHNESS),
        (Output("speed_mm2_per_s", "mm2_per_s"),),
        ("straight-front", "hydraulic-width"),
    ),
    calculator(
        reach,
        "Reach of a straight front",
        (WIDTH, PRESSURE, VISCOSITY, TIME, ROUGHNESS, GROWTH),
        (Output("distance_mm", "mm"),),
        _FRONT,
    ),
    calculator(
        time_to_reach,
        "Time of a straight front",
        (DISTANCE, WIDTH, PRESSURE, VISCOSITY, ROUGHNESS, GROWTH),
        (Output("time_s", "s"),),
        _FRONT,
    ),
)
