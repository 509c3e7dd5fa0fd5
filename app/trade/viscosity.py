"""The viscosity of mixed resin as it cures, and the time a front feels.

At one temperature the viscosity follows the first-order law μ(t) = μ0 · e^(k t), k ≥ 0. Pressure
drives a front through ∫ dt/μ, so every closed form of slot flow holds with the time t replaced by
the fluid time τ(t) = (1 − e^(−k t)) / k, which is t itself when k is zero. τ never passes 1/k: with
growth a front may never arrive. Real resin thickens faster than this near gel, so a reach worked
out with it is an upper bound.
"""

import math

from app.trade.calculator import Calculator, Input, Output, calculator
from app.trade.errors import OutOfRange

VISCOSITY = Input("viscosity_pa_s", "pa_s", 0.001, 1000, says="mixed, when injecting starts")
TIME = Input("time_s", "s", 0, 1_000_000, says="since injecting started")
GROWTH = Input("growth_per_min", "per_min", 0, 10, default=0, says="rate k of the viscosity law")
DOUBLING = Input("doubling_min", "min", 0.1, 10_000, says="time in which the viscosity doubles")
# Beyond this exponent e^x leaves what a float holds.
LARGEST_EXPONENT = 700.0


def growth_from_doubling(doubling_min: float) -> float:
    """The rate of the viscosity law from the time in which the viscosity doubles.

    Inputs:
        doubling_min: min
    Result:
        growth_per_min: 1/min
    Errors: OutOfRange outside the bounds of its input.
    Source: viscosity-first-order
    Example:
        >>> round(growth_from_doubling(30), 5)
        0.0231
    """
    return math.log(2) / DOUBLING.check(doubling_min)


def viscosity_after(viscosity_pa_s: float, time_s: float, growth_per_min: float = 0) -> float:
    """Viscosity after a time at one temperature: μ0 · e^(k t).

    Inputs:
        viscosity_pa_s: when injecting starts, Pa·s
        time_s: since then, s
        growth_per_min: rate k, 1/min; 0 is no growth
    Result:
        viscosity_pa_s: Pa·s
    Errors: OutOfRange outside the bounds of its inputs; OutOfRange for growth_per_min when the
        result would be too large for a number.
    Source: viscosity-first-order, viscosity-growth
    Example:
        >>> round(viscosity_after(0.3, 1800, growth_from_doubling(30)), 3)
        0.6
    """
    exponent = GROWTH.check(growth_per_min) * TIME.check(time_s) / 60
    if exponent > LARGEST_EXPONENT:
        raise OutOfRange(
            "growth_per_min", growth_per_min, 0, LARGEST_EXPONENT * 60 / time_s, "per_min"
        )
    return VISCOSITY.check(viscosity_pa_s) * math.exp(exponent)


def fluid_time(time_s: float, growth_per_min: float = 0) -> float:
    """The time a front feels: ∫ μ0/μ dt, equal to the clock time when nothing grows.

    Inputs:
        time_s: since injecting started, s
        growth_per_min: rate of the viscosity law, 1/min; 0 is no growth
    Result:
        fluid_time_s: s; less than 60/growth_per_min
    Errors: OutOfRange outside the bounds of its inputs.
    Source: viscosity-first-order, viscosity-growth
    Example:
        >>> round(fluid_time(1800, growth_from_doubling(30)))
        1298
    """
    lost = GROWTH.check(growth_per_min) / 60 * TIME.check(time_s)
    return time_s if lost == 0 else time_s * (-math.expm1(-lost) / lost)


def clock_time(fluid_time_s: float, growth_per_min: float) -> float | None:
    """The inverse of fluid_time; None when the fluid time is never reached."""
    lost = GROWTH.check(growth_per_min) / 60 * fluid_time_s
    if lost >= 1:
        return None
    return fluid_time_s if lost == 0 else fluid_time_s * (-math.log1p(-lost) / lost)


CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        growth_from_doubling,
        "Growth rate of the viscosity",
        (DOUBLING,),
        (Output("growth_per_min", "per_min"),),
        ("viscosity-first-order",),
    ),
    calculator(
        viscosity_after,
        "Viscosity after a time",
        (VISCOSITY, TIME, GROWTH),
        (Output("viscosity_pa_s", "pa_s"),),
        ("viscosity-first-order", "viscosity-growth"),
    ),
    calculator(
        fluid_time,
        "The time a front feels",
        (TIME, GROWTH),
        (Output("fluid_time_s", "s"),),
        ("viscosity-first-order", "viscosity-growth"),
    ),
)
