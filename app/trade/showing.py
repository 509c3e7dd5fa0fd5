"""Writing quantities the way the trade says them, in one unit system or the other.

Three significant digits at least, whole units kept above a thousand; US lengths in feet, inches and
sixteenths as on a tape, in mil where a tape no longer helps. Where a sixteenth would be more than
2 % off, decimal inches are written instead: a rounded figure must not mislead.
"""

import re
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from app.trade.errors import NotAChoice, OutOfRange
from app.trade.typed_number import mixed
from app.trade.units import BASE_UNITS, UNITS, from_base

System = Literal["metric", "us"]
SYSTEMS = ("metric", "us")

_TAPE_ERROR = Fraction(2, 100)
_EXACT_ERROR = Fraction(1, 200)
_MIL = re.compile(r"(\d+(?:\.\d+)?) mil\b")
_FLOAT_ERROR = Fraction(1, 10**9)

# Units from small to large; each holds from its first bound (in base units) upwards.
_SCALES: dict[tuple[str, str], tuple[tuple[str, Fraction], ...]] = {
    ("length", "metric"): (("mm", Fraction(0)), ("m", Fraction(10_000))),
    ("volume", "metric"): (("ml", Fraction(0)), ("l", Fraction(1000)), ("m3", Fraction(10**6))),
    ("volume", "us"): (
        ("floz", Fraction(0)),
        ("gal", UNITS["gal"].factor),
        ("ft3", 100 * UNITS["gal"].factor),
    ),
    ("mass", "metric"): (("g", Fraction(0)), ("kg", Fraction(1000))),
    ("mass", "us"): (("oz", Fraction(0)), ("lb", UNITS["lb"].factor)),
    ("pressure", "us"): (("psi", Fraction(0)),),
    ("temperature", "us"): (("f", Fraction(-1000)),),
    ("density", "us"): (("lb_per_gal", Fraction(0)),),
    ("viscosity", "metric"): (("mpa_s", Fraction(0)), ("pa_s", Fraction(10))),
    ("viscosity", "us"): (("cp", Fraction(0)),),
    ("airflow", "us"): (("cfm", Fraction(0)),),
    ("flow", "us"): (("floz_per_min", Fraction(0)),),
}


def show(value: Fraction | float, quantity: str, system: System) -> str:
    """A base value as text with its unit.

    Inputs:
        value: in the base unit of the quantity
        quantity: one of the keys of units.BASE_UNITS
        system: metric or us
    Errors: NotAChoice for an unknown quantity or system; OutOfRange for NaN and infinities.
    Example:
        >>> show(38.1, "length", "us"), show(38.1, "length", "metric"), show(0.508, "length", "us")
        ('1 1/2 in', '38.1 mm', '20 mil')
    """
    if quantity not in BASE_UNITS:
        raise NotAChoice("quantity", quantity, tuple(BASE_UNITS))
    if system not in SYSTEMS:
        raise NotAChoice("system", system, SYSTEMS)
    if value != value or value in (float("inf"), float("-inf")):
        raise OutOfRange("value", value, None, None, BASE_UNITS[quantity])
    exact = Fraction(value)
    if exact < 0 and quantity != "temperature":
        return "−" + show(-exact, quantity, system)
    if quantity == "length" and system == "us":
        return _us_length(exact)
    if quantity == "time":
        return _time(exact)
    if quantity == "ratio":
        return f"{digits(exact, 4)}:1"
    if quantity == "share":
        return f"{digits(exact * 100)} %"
    return _scaled(exact, quantity, system)


def digits(value: Fraction | float, significant: int = 3) -> str:
    """A number with at least `significant` digits, never fewer than its whole part has.

    Example:
        >>> digits(3657.6), digits(14.68176), digits(0.508), digits(0)
        ('3658', '14.7', '0.508', '0')
    """
    exact = Fraction(value)
    if exact == 0:
        return "0"
    places = 0
    while abs(exact) * 10**places < 10 ** (significant - 1) and places < 12:
        places += 1
    written = f"{float(exact):.{places}f}"
    written = written.rstrip("0").rstrip(".") if "." in written else written
    return written.replace("-", "−")


def mil_as_inches(text: str) -> str:
    """Text with every length in mil written in inches: for Spanish, where mil is a thousand.

    Inputs:
        text: lengths as `show` writes them, alone or among others
    Result:
        text: the same, with thousandths of an inch as decimals
    Errors: none; what is not in mil stays as it is
    Example:
        >>> mil_as_inches("20 mil (0.508 mm)"), mil_as_inches("1 1/2 in")
        ('0.020 in (0.508 mm)', '1 1/2 in')
    """
    return _MIL.sub(lambda found: f"{Decimal(found[1]).scaleb(-3):f} in", text)


def _scaled(value: Fraction, quantity: str, system: System) -> str:
    base = BASE_UNITS[quantity]
    scale = _SCALES.get((quantity, system), ((base, Fraction(0)),))
    # A gallon that went through floats is still a gallon.
    fitting = [name for name, start in scale if value >= start * (1 - _FLOAT_ERROR)]
    name = fitting[-1] if fitting else scale[0][0]
    if not name:
        return digits(value)
    significant = 4 if name == "m" else 3
    return f"{digits(from_base(value, name), significant)} {UNITS[name].sign}".strip()


def _us_length(value: Fraction) -> str:
    inches = from_base(value, "in")
    sixteenths = round(inches * 16)
    tape = Fraction(sixteenths, 16)
    is_small = 0 < inches < Fraction(1, 4) * (1 - _FLOAT_ERROR)
    if is_small and (tape == 0 or not _is_close(tape, inches, _EXACT_ERROR)):
        return f"{digits(inches * 1000)} mil"
    if not _is_close(tape, inches, _TAPE_ERROR):
        return f"{digits(inches)} in"
    if tape < 24:
        return f"{mixed(tape)} in"
    feet, left = divmod(tape, 12)
    return f"{feet} ft {mixed(left)} in" if left else f"{feet} ft"


def _is_close(rounded: Fraction, value: Fraction, share: Fraction) -> bool:
    return abs(rounded - value) <= share * value


def _time(minutes: Fraction) -> str:
    if 0 < minutes < 1:
        return f"{digits(minutes * 60)} s"
    if minutes < 120:
        return f"{digits(minutes)} min"
    hours, left = divmod(round(minutes), 60)
    return f"{hours} h {left} min" if left else f"{hours} h"
