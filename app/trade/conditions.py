"""A condition read on site against its limits: data sheet, plan or published rule."""

from typing import Final

from app.trade.calculator import Calculator, Input, Output, calculator
from app.trade.errors import NotListed
from app.trade.limits import Limits
from app.trade.units import INCH_MM

TEMPERATURE = Input("temperature_c", "c", -40, 80, says="of the concrete or the resin, as asked")
LOWEST = Input("low_c", "c", -40, 80, says="lowest on the product data sheet")
HIGHEST = Input("high_c", "c", -40, 80, says="highest on the product data sheet")

VALUE = Input("value", "", None, None, says="what was read")
LOW = Input("low", "", None, None, default=None, says="lowest allowed; empty: no lower limit")
HIGH = Input("high", "", None, None, default=None, says="highest allowed; empty: no upper limit")

EYEWASH = Input("distance_mm", "mm", 0, 1_000_000, says="from the work to the eyewash, as walked")
# ANSI/ISEA Z358.1: ten seconds away, about 55 ft.
EYEWASH_MOST_MM: Final = float(55 * 12 * INCH_MM)


def limits_outputs(unit: str) -> tuple[Output, ...]:
    """The outputs of every calculator that returns `Limits`."""
    return (Output("value", unit), Output("low", unit), Output("high", unit), Output("unit", ""))


def temperature_check(temperature_c: float, low_c: float, high_c: float) -> Limits:
    """A temperature against the lowest and the highest of the product data sheet.

    The published general limits (10 °C in one source, 8 °C in another) do not replace the data
    sheet's own, so both have to be given here.

    Inputs:
        temperature_c: of the concrete or the resin, °C
        low_c: lowest on the product data sheet, °C
        high_c: highest on the product data sheet, °C
    Result: Limits in °C; the limits themselves are within.
    Errors: OutOfRange outside the bounds of its inputs; NotListed when low_c lies above high_c.
    Source: data-sheet-limits
    Example:
        >>> temperature_check(9, 10, 32).is_within
        False
    """
    TEMPERATURE.check(temperature_c)
    low, high = _ordered("low_c to high_c", LOWEST.check(low_c), HIGHEST.check(high_c))
    return Limits(temperature_c, low, high, "c")


def within(value: float, low: float | None = None, high: float | None = None) -> Limits:
    """Any reading against limits in the same unit, whatever the unit is.

    Inputs:
        value: what was read
        low: lowest allowed; None: no lower limit
        high: highest allowed; None: no upper limit
    Result: Limits without a unit; the limits themselves are within.
    Errors: OutOfRange for what is no finite number; NotListed when both limits are missing (such
        a check could not fail) or when low lies above high.
    Source: data-sheet-limits
    Example:
        >>> within(0.2, high=0.3).is_within
        True
    """
    VALUE.check(value)
    low, high = LOW.check_optional(low), HIGH.check_optional(high)
    if low is None and high is None:
        raise NotListed("low, high", (low, high), "at least one limit is needed")
    if low is not None and high is not None:
        _ordered("low to high", low, high)
    return Limits(value, low, high, "")


def eyewash_distance_check(distance_mm: float) -> Limits:
    """Is the eyewash within ten seconds of the work, about 55 ft (16.8 m), with nothing in the way?

    Inputs:
        distance_mm: from the work to the eyewash, as walked, mm
    Result: Limits in mm with an upper limit only.
    Errors: OutOfRange outside the bounds of its input.
    Source: eyewash-distance
    Example:
        >>> eyewash_distance_check(20_000).is_within
        False
    """
    return Limits(EYEWASH.check(distance_mm), None, EYEWASH_MOST_MM, "mm")


def _ordered(name: str, low: float, high: float) -> tuple[float, float]:
    if low > high:
        raise NotListed(name, (low, high), "the lowest must not lie above the highest")
    return low, high


CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        temperature_check,
        "Temperature against the data sheet",
        (TEMPERATURE, LOWEST, HIGHEST),
        limits_outputs("c"),
        ("data-sheet-limits",),
    ),
    calculator(
        within,
        "A reading against its limits",
        (VALUE, LOW, HIGH),
        limits_outputs(""),
        ("data-sheet-limits",),
    ),
    calculator(
        eyewash_distance_check,
        "Distance to the eyewash",
        (EYEWASH,),
        limits_outputs("mm"),
        ("eyewash-distance",),
    ),
)
