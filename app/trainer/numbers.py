"""Numbers on their way into a record: exact values as decimal text, and the unit as typed.

A record holds no binary fractions. Twelve digits are more than any gauge gives, and a limit typed
the same way as the value rounds to the same text, so that a value on its limit stays on it.
"""

import re
from decimal import Context, Decimal
from fractions import Fraction

from app.trade.units import UNITS, Unit, folded, from_base, words_for

_DIGITS = Context(prec=12)
_NUMBER = re.compile(r"^[\d./⁄\s½¼¾⅛⅜⅝⅞⅓⅔−-]+")


def decimal_text(value: Fraction | float | int) -> str:
    """The value as plain decimal text of at most twelve significant digits: "0.27579029168"."""
    exact = Fraction(value) if isinstance(value, Fraction | int) else Fraction(repr(float(value)))
    rounded = _DIGITS.divide(Decimal(exact.numerator), Decimal(exact.denominator))
    plain = format(rounded.normalize(), "f")
    return "0" if plain in ("-0", "0") else plain


def exact(text: str | None) -> Fraction | None:
    """The exact value of decimal text; None stays None."""
    return None if text is None else Fraction(text)


def rounded(value: float | None) -> Fraction | None:
    """A stored number as the same exact value its decimal text gives."""
    return None if value is None else Fraction(decimal_text(value))


def unit_typed(typed: str, quantity: str, default: str) -> Unit:
    """The unit somebody typed, so that limits are shown as the gauge reads; else the field's."""
    rest = folded(_NUMBER.sub("", typed.strip()))
    if quantity == "length" and any(mark.isdigit() for mark in rest):
        return UNITS["in"]  # feet and inches
    return words_for(quantity).get(rest, UNITS[default])


def in_typed_unit(value: Fraction, unit: Unit) -> float:
    """A base value as a number of that unit, for a drawing or a sentence."""
    return float(from_base(value, unit.name))
