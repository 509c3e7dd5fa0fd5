"""PURE. Does a figure say the same in both unit systems? Catches slips such as 150 mm | 60 in."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from app.trade.units import UNITS, Unit

CLOSE = Fraction(1, 10)
"""Both sides are rounded for reading, so they may differ by this share."""
CLOSE_AS_WRITTEN = Fraction(1, 5)
"""A published pair may be rounded harder (0.3 MPa, 50 psi): up to this share, if one side
rounded to the digits of the other is the other."""

_NUMBER = re.compile(r"(\d[\d,]*(?:\.\d+)?)(?:[ -](\d+)/(\d+)|/(\d+))?")
_BETWEEN = re.compile(r"\s*(?:[–—-]|to|or|and|×|x|by)\s*$")


def _words() -> dict[str, tuple[Unit, ...]]:
    found: dict[str, tuple[Unit, ...]] = {}
    for unit in UNITS.values():
        for word in {*unit.words, unit.sign.lower()} - {""}:
            found[word] = (*found.get(word, ()), unit)
    return found


_UNIT_WORDS = _words()
_UNIT = re.compile("|".join(re.escape(word) for word in sorted(_UNIT_WORDS, key=len, reverse=True)))


@dataclass(frozen=True)
class _Figure:
    """One number with the units its sign may mean, `per` another unit or None."""

    number: Fraction
    digits: int
    units: tuple[Unit, ...]
    per: tuple[Unit, ...]


def mismatch(metric: str, us: str) -> str | None:
    """A sentence about what does not fit between the two sides, or None when they agree.

    Words without a number are not compared. Temperatures may be meant as such or as a
    difference; either may fit. Example: mismatch("150 mm", "6 in") is None.
    """
    left, right = _figures(metric), _figures(us)
    if isinstance(left, str) or isinstance(right, str):
        return left if isinstance(left, str) else str(right)
    if len(left) != len(right):
        return f"{metric!r} holds {len(left)} figures and {us!r} holds {len(right)}"
    for one, other in zip(left, right, strict=True):
        if not _agree(one, other):
            return f"{metric!r} and {us!r} differ by more than 10 %"
    return None


def _figures(text: str) -> list[_Figure] | str:
    """Every number of `text` with its unit; in a range the last unit counts for all."""
    low = text.lower()
    numbers = list(_NUMBER.finditer(low))
    found: list[_Figure] = []
    units: tuple[Unit, ...] | None = None
    per: tuple[Unit, ...] = ()
    for place in reversed(range(len(numbers))):
        number = numbers[place]
        after = low[number.end() : numbers[place + 1].start() if found else len(low)]
        if not (found and _BETWEEN.fullmatch(after)):
            units, per = _unit_after(after)
        if not units:
            return f"no unit that is known stands after {number.group()} in {text!r}"
        found.append(_Figure(_read_number(number), _digits(number.group()), units, per))
    return list(reversed(found))


def _unit_after(after: str) -> tuple[tuple[Unit, ...], tuple[Unit, ...]]:
    after = after.lstrip(" -").removeprefix("us ")
    first = _UNIT.match(after)
    if first is None:
        return (), ()
    rest = after[first.end() :]
    if rest[:1].isalpha():
        return (), ()
    second = re.match(r"\s*(?:per|/|a|for each)\s+(\S+)", rest)
    per = _UNIT_WORDS.get(second.group(1).strip(".,;"), ()) if second else ()
    return _UNIT_WORDS[first.group()], per


def _read_number(match: re.Match[str]) -> Fraction:
    whole, top, bottom, under = match.groups()
    value = Fraction(whole.replace(",", ""))
    if under is not None:
        return value / int(under)
    return value + Fraction(int(top), int(bottom)) if top is not None else value


def _agree(one: _Figure, other: _Figure) -> bool:
    pairs = [
        (left, right)
        for left in one.units
        for right in other.units
        if left.quantity == right.quantity
    ]
    return any(
        _close(_scaled(one, left, offset), _scaled(other, right, offset))
        or _close_as_written(one, left, other, right)
        or _close_as_written(other, right, one, left)
        for left, right in pairs
        for offset in (True, False)
    )


def _scaled(figure: _Figure, unit: Unit, with_offset: bool) -> Fraction:
    value = figure.number * unit.factor + (unit.offset if with_offset else 0)
    return value / figure.per[0].factor if figure.per else value


def _close(one: Fraction, other: Fraction, share: Fraction = CLOSE) -> bool:
    return abs(one - other) <= share * max(abs(one), abs(other))


def _close_as_written(one: _Figure, one_unit: Unit, other: _Figure, other_unit: Unit) -> bool:
    """Whether `other`, in the unit of `one` and rounded to its digits, is `one`."""
    if one.per or other.per or one_unit.offset or other_unit.offset:
        return False
    converted = other.number * other_unit.factor / one_unit.factor
    rounded = Fraction(f"{float(converted):.{max(one.digits, 1) - 1}e}")
    return rounded == one.number and _close(converted, one.number, CLOSE_AS_WRITTEN)


def _digits(written: str) -> int:
    return len(re.sub(r"\D", "", written).lstrip("0"))
