"""The pump: does it hold its pressure, and what has to be purged."""

import math

from app.trade.calculator import Calculator, Input, Output, calculator
from app.trade.conditions import limits_outputs
from app.trade.errors import OutOfRange
from app.trade.limits import Limits

START = Input("start_mpa", "mpa", 0.01, 30, says="gauge reading when the pump was stopped")
END = Input("end_mpa", "mpa", 0, 30, says="gauge reading at the end of the wait")
MINUTES = Input("minutes", "min", 0, 120, says="how long the pump stood")
LEAST = Input("least_mpa", "mpa", 0.01, 30, says="least pressure left, from the plan")
LEAST_MINUTES = Input("least_minutes", "min", 0.1, 120, says="shortest wait, from the plan")

INNER_DIAMETER = Input("inner_diameter_mm", "mm", 1, 100)
HOSE_LENGTH = Input("length_mm", "mm", 1, 200_000, says="of one hose")
HOSES = Input("hoses", "count", 1, 4, kind="count", default=2, says="one for A, one for B")
TIMES = Input("times", "", 1, 10, default=1, says="hose contents to push out")
PURGED = Input("purged_ml", "ml", 0, 100_000, says="caught in the waste container")


def pressure_hold(
    start_mpa: float, end_mpa: float, minutes: float, least_mpa: float, least_minutes: float
) -> Limits:
    """Does the pump hold its pressure with the valves shut? Not the ratio test: other limits.

    A wait cut short while the pressure still stood proves nothing and is refused. A wait cut short
    because the pressure had already gone is a failed check. A rise during the wait is no hold.

    Inputs:
        start_mpa: gauge reading when the pump was stopped, MPa
        end_mpa: gauge reading at the end of the wait, MPa
        minutes: how long the pump stood, min
        least_mpa: least pressure that must be left, from the plan, MPa
        least_minutes: shortest wait, from the plan, min
    Result: Limits of the end reading in MPa: from least_mpa up to start_mpa.
    Errors: OutOfRange outside the bounds of its inputs; for a start below least_mpa (the check was
        never begun); for a wait shorter than least_minutes with the pressure still standing.
    Source: pressure-hold
    Example:
        >>> pressure_hold(1.10, 1.05, 3, 1.03, 3).is_within
        True
    """
    for bound, value in ((START, start_mpa), (END, end_mpa), (MINUTES, minutes)):
        bound.check(value)
    LEAST.check(least_mpa)
    LEAST_MINUTES.check(least_minutes)
    if start_mpa < least_mpa:
        raise OutOfRange("start_mpa", start_mpa, least_mpa, None, "mpa")
    if minutes < least_minutes and end_mpa >= least_mpa:
        raise OutOfRange("minutes", minutes, least_minutes, None, "min")
    return Limits(end_mpa, least_mpa, start_mpa, "mpa")


def hose_volume(inner_diameter_mm: float, length_mm: float) -> float:
    """What one hose holds.

    Inputs:
        inner_diameter_mm: mm
        length_mm: of one hose, mm
    Result:
        volume_ml: mL
    Errors: OutOfRange outside the bounds of its inputs.
    Source: cylinder-volume
    Example:
        >>> round(hose_volume(10, 15_000), 1)
        1178.1
    """
    INNER_DIAMETER.check(inner_diameter_mm)
    HOSE_LENGTH.check(length_mm)
    return math.pi / 4 * inner_diameter_mm**2 * length_mm / 1000


def purge_volume(
    inner_diameter_mm: float, length_mm: float, hoses: int = 2, times: float = 1
) -> float:
    """How much has to be pushed out before the hoses hold nothing but fresh material.

    Inputs:
        inner_diameter_mm: mm
        length_mm: of one hose, mm
        hoses: count, one for A and one for B
        times: how many hose contents to push out, plain number
    Result:
        volume_ml: all hoses together, mL
    Errors: OutOfRange outside the bounds of its inputs.
    Source: cylinder-volume, purge-first
    Example:
        >>> round(purge_volume(10, 15_000), 1)
        2356.2
    """
    HOSES.check(hoses)
    TIMES.check(times)
    return hose_volume(inner_diameter_mm, length_mm) * hoses * times


def purge_check(
    purged_ml: float,
    inner_diameter_mm: float,
    length_mm: float,
    hoses: int = 2,
    times: float = 1,
) -> Limits:
    """Was at least the hoses' content caught before the mixer goes on?

    Volume is the lower limit only. The purge ends when the material runs clean, in its own colour
    and without air; that is for the eye.

    Inputs:
        purged_ml: caught in the waste container, all hoses together, mL
        inner_diameter_mm: mm
        length_mm: of one hose, mm
        hoses: count, one for A and one for B
        times: how many hose contents to push out, plain number
    Result: Limits in mL with a lower limit only.
    Errors: OutOfRange outside the bounds of its inputs.
    Source: cylinder-volume, purge-first
    Example:
        >>> purge_check(2000, 10, 15_000).is_within
        False
    """
    PURGED.check(purged_ml)
    return Limits(purged_ml, purge_volume(inner_diameter_mm, length_mm, hoses, times), None, "ml")


CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        pressure_hold,
        "Does the pump hold its pressure",
        (START, END, MINUTES, LEAST, LEAST_MINUTES),
        limits_outputs("mpa"),
        ("pressure-hold",),
    ),
    calculator(
        hose_volume,
        "What a hose holds",
        (INNER_DIAMETER, HOSE_LENGTH),
        (Output("volume_ml", "ml"),),
        ("cylinder-volume",),
    ),
    calculator(
        purge_volume,
        "How much to purge",
        (INNER_DIAMETER, HOSE_LENGTH, HOSES, TIMES),
        (Output("volume_ml", "ml"),),
        ("cylinder-volume", "purge-first"),
    ),
    calculator(
        purge_check,
        "Was enough purged",
        (PURGED, INNER_DIAMETER, HOSE_LENGTH, HOSES, TIMES),
        limits_outputs("ml"),
        ("cylinder-volume", "purge-first"),
    ),
)
