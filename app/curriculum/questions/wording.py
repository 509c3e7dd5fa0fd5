"""PURE. A variant in words: the question with its numbers, the worked solution in both systems."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction

from app.curriculum.questions.items import ComputedQuestion
from app.curriculum.questions.variants import Variant
from app.trade.lengths import read_quantity
from app.trade.showing import System, digits, mil_as_inches, show
from app.trade.typed_number import mixed
from app.trade.units import UNITS, Unit, from_base, unit_named

CLOSELY = Fraction(1, 500)
"""How far a bracketed conversion may be off, as a share; tolerances of answers are wider."""

PLACE = re.compile(r"\{([a-z][a-z0-9_]*)\}")
_US_UNITS = frozenset(
    {"in", "ft", "mil", "floz", "pt", "qt", "gal", "in3", "oz", "lb", "f", "psi", "cfm"}
    | {"ft3", "lb_per_gal", "cp", "floz_per_min", "pt_per_h"}
)
_EITHER_UNITS = frozenset({"%", "parts", "count", "s", "min", "h", "ppm", "deg", "per_min"})


def places_in(text: str) -> set[str]:
    """The names in braces. Example: places_in("{a} by {b}") == {"a", "b"}."""
    return set(PLACE.findall(text))


def asked(question: ComputedQuestion, variant: Variant, language: str) -> str:
    """The question with its numbers, each in its own unit and, in brackets, in the other system.

    No brackets where the answer has no tolerance (counts): a rounded conversion could change it.
    """
    said = _both if _has_tolerance(question) else in_own_unit
    words = {
        name: said(number, unit_named(question.variables[name].unit))
        for name, number in variant.numbers.items()
    }
    return _filled(question.text.in_language(language), _in_language(words, language))


def worked_solution(
    question: ComputedQuestion,
    variant: Variant,
    working: Mapping[str, Fraction],
    language: str,
    system: System,
) -> str:
    """The solution in one unit system; `working` from questions.working_values.

    Where the answer has no tolerance (counts), both systems give it in the question's own units.
    """
    if not _has_tolerance(question):
        system = _own_system(question, system)
    words = {
        name: in_system(number, unit_named(question.variables[name].unit), system)
        for name, number in variant.numbers.items()
    }
    for name, value in working.items():
        quantity = question.working_quantities.get(name, question.answer.quantity)
        words[name] = show(value, quantity, system)
    words["key"] = show(variant.key, question.answer.quantity, system)
    return _filled(question.solution.in_language(language), _in_language(words, language))


def in_own_unit(number: Fraction, unit: Unit) -> str:
    """The number as it was drawn: 12 ft, 1 1/2 in, 0.3 mm, 15 %; plain for parts and counts.

    Example: in_own_unit(Fraction(3, 2), UNITS["in"]) == "1 1/2 in".
    """
    if unit.name in ("in", "ft") and number.denominator in (1, 2, 4, 8, 16, 32):
        return f"{mixed(number)} {unit.sign}"
    written = _decimal(number)
    return written if unit.name in ("parts", "count") else f"{written} {unit.sign}".strip()


def in_system(number: Fraction, unit: Unit, system: System) -> str:
    """The number in its own unit where that belongs to `system`, otherwise converted."""
    if unit.name in _EITHER_UNITS or (unit.name in _US_UNITS) == (system == "us"):
        return in_own_unit(number, unit)
    return show(number * unit.factor + unit.offset, unit.quantity, system)


def _in_language(words: Mapping[str, str], language: str) -> dict[str, str]:
    """The numbers as the language writes them: in Spanish "mil" reads as a thousand."""
    if language != "es":
        return dict(words)
    return {name: mil_as_inches(text) for name, text in words.items()}


def _has_tolerance(question: ComputedQuestion) -> bool:
    return question.answer.relative > 0 or question.answer.absolute > 0


def _own_system(question: ComputedQuestion, otherwise: System) -> System:
    """The system of the first variable that belongs to one."""
    for variable in question.variables.values():
        if variable.unit not in _EITHER_UNITS:
            return "us" if variable.unit in _US_UNITS else "metric"
    return otherwise


def _both(number: Fraction, unit: Unit) -> str:
    own = in_own_unit(number, unit)
    if unit.name in _EITHER_UNITS:
        return own
    system: System = "metric" if unit.name in _US_UNITS else "us"
    other = _closely(number * unit.factor + unit.offset, unit.quantity, system)
    return own if own == other else f"{own} ({other})"


def _closely(value: Fraction, quantity: str, system: System) -> str:
    """As `show`, but with a fourth digit where the rounding would show in an answer."""
    shown = show(value, quantity, system)
    if quantity == "temperature":
        return shown
    if abs(read_quantity(shown, quantity).value - value) <= CLOSELY * abs(value):
        return shown
    fitting = [unit for unit in UNITS.values() if unit.quantity == quantity]
    ending = [unit for unit in fitting if unit.sign and shown.endswith(f" {unit.sign}")]
    unit = max(ending, key=lambda one: len(one.sign))
    return f"{digits(from_base(value, unit.name), 4)} {unit.sign}"


def _decimal(number: Fraction) -> str:
    """The exact decimal where there is one, otherwise a mixed fraction."""
    for places in range(7):
        scaled = number * 10**places
        if scaled.denominator == 1:
            return f"{float(number):.{places}f}"
    return mixed(number)


def _filled(text: str, words: Mapping[str, str]) -> str:
    return PLACE.sub(lambda match: words[match.group(1)], text)
