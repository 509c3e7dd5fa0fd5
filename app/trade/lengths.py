"""Reading what people type: 6'-4 1/2", 3/4 in, 20 mil, 0.25 gal. What is unclear is refused.

Every refusal carries a sentence that asks the question which would make it clear. What was read is
said back before it is used.
"""

import re
from dataclasses import dataclass
from fractions import Fraction

from app.trade.errors import NotAChoice
from app.trade.typed_number import Unreadable, mixed, read_number, tidy
from app.trade.units import BASE_UNITS, UNITS, Unit, folded, from_base, to_base, words_for

__all__ = ["Reading", "Unreadable", "in_unit", "read_quantity"]

# Quantities that are plain numbers: a unit may stand there but need not.
PLAIN = ("ratio", "count", "share")

_FEET = re.compile(r"(?:'|ft\.?|feet|foot|pies?)\s*-?\s*(?=[0-9.])", re.IGNORECASE)
_INCH_WORDS = tuple(folded(word) for word in UNITS["in"].words)


@dataclass(frozen=True, slots=True)
class Reading:
    """What was read: the exact value in the base unit, and the words that say it back."""

    value: Fraction
    quantity: str
    unit: str
    said: str


def read_quantity(text: str, quantity: str, field_unit: str | None = None) -> Reading:
    """Read one typed quantity.

    Inputs:
        text: as typed, at most 40 characters
        quantity: one of the keys of units.BASE_UNITS
        field_unit: the unit a bare number is in, or None when the field has none
    Result:
        reading: value in the base unit of the quantity, exact
    Errors: Unreadable with a sentence for the page; NotAChoice for an unknown quantity.
    Example:
        >>> read_quantity("6", "length")
        Traceback (most recent call last):
        app.trade.typed_number.Unreadable: 6 what? Add the unit: mm, cm, m, in, ft, mil.
        >>> read_quantity("1 1/2", "length", "in").said
        '1 1/2 in = 38.1 mm'
    """
    if quantity not in BASE_UNITS:
        raise NotAChoice("quantity", quantity, tuple(BASE_UNITS))
    plain = tidy(text)
    sign = -1 if plain.startswith("-") else 1
    if sign < 0 and quantity != "temperature":
        raise Unreadable(text, "“{text}” is below zero. Is the minus meant? Type it without.")
    if quantity == "ratio" and ":" in plain:
        return _read_ratio(plain, text)
    number, written, rest = read_number(plain.lstrip("-").strip() if sign < 0 else plain, text)
    if quantity == "length" and _FEET.match(rest):
        return _read_feet_and_inches(number, written, rest, text)
    unit = _unit_typed(rest, quantity, field_unit, written, text)
    _refuse_misfit(number, quantity, unit, text)
    value = to_base(sign * number, unit.name) if unit else sign * number
    said = ("-" if sign < 0 else "") + written
    return Reading(value, quantity, BASE_UNITS[quantity], _said(said, value, unit, quantity))


def _read_ratio(plain: str, text: str) -> Reading:
    left, right = (side.strip() for side in plain.split(":", 1))
    a, written_a, rest_a = read_number(left, text)
    b, written_b, rest_b = read_number(right, text)
    if rest_a or rest_b or b == 0:
        raise Unreadable(text, "“{text}” is no ratio we can read. Type it like 2:1.")
    return Reading(a / b, "ratio", "", f"{written_a} to {written_b}")


def _read_feet_and_inches(feet: Fraction, written: str, rest: str, text: str) -> Reading:
    match = _FEET.match(rest)
    assert match is not None
    inches, written_in, unit = read_number(rest[match.end() :], text)
    if not unit:
        question = "What is the {inches} after the feet? Type the unit, as in 6 ft 4 in."
        raise Unreadable(text, question, inches=written_in)
    if folded(unit) not in _INCH_WORDS:
        raise Unreadable(text, "What is “{unit}”? After feet only inches can follow.", unit=unit)
    if not written.isdigit():
        question = "Feet must be whole when inches follow. Is {feet} ft meant, or other inches?"
        raise Unreadable(text, question, feet=written)
    total = 12 * feet + inches
    if inches >= 12:
        question = "{inches} in is a foot or more. Do you mean {feet} ft {left} in?"
        feet_meant, left = divmod(total, 12)
        raise Unreadable(text, question, inches=written_in, feet=feet_meant, left=mixed(left))
    said = f"{written} ft {written_in} in = {mixed(total)} in"
    return Reading(to_base(total, "in"), "length", "mm", said)


def _unit_typed(
    rest: str, quantity: str, field_unit: str | None, written: str, text: str
) -> Unit | None:
    known = words_for(quantity)
    signs = ", ".join(dict.fromkeys(unit.sign for unit in known.values() if unit.sign))
    if not rest:
        if field_unit:
            return UNITS[field_unit]
        if quantity in PLAIN:
            return None
        raise Unreadable(text, "{number} what? Add the unit: {units}.", number=written, units=signs)
    if folded(rest) in known:
        return known[folded(rest)]
    for unit in UNITS.values():
        if folded(rest) in map(folded, unit.words):
            sentence = "{unit} is for {other}. Here {quantity} is asked: {units}."
            raise Unreadable(
                text, sentence, unit=rest, other=unit.quantity, quantity=quantity, units=signs
            )
    sentence = "What unit is “{unit}”? Use one of these: {units}."
    raise Unreadable(text, sentence, unit=rest, units=signs or "none, a plain number")


def _refuse_misfit(number: Fraction, quantity: str, unit: Unit | None, text: str) -> None:
    if quantity == "count" and number.denominator != 1:
        raise Unreadable(text, "“{text}” is not a whole number. How many are there?")
    if quantity == "share" and unit is None and number > 1:
        raise Unreadable(text, "Is {text} % meant? Add the sign, or type a share from 0 to 1.")


def _said(written: str, value: Fraction, unit: Unit | None, quantity: str) -> str:
    base = UNITS.get(BASE_UNITS[quantity])
    if unit is None or base is None or unit.name == base.name:
        return f"{written} {unit.sign}".strip() if unit else written
    rounded = f"{float(value):.6g}"
    equals = "=" if Fraction(rounded) == value else "is about"
    return f"{written} {unit.sign} {equals} {rounded} {base.sign}"


def in_unit(value: Fraction | float, unit: str) -> Fraction:
    """A base value as a number of `unit`; the other way round from reading.

    Example:
        >>> in_unit(Fraction(381, 10), "in")
        Fraction(3, 2)
    """
    return from_base(Fraction(value), unit)
