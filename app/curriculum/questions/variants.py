"""PURE. Item models: from a question and a seed to one variant with its own numbers.

The draw is our own, by hashing, so that the same seed gives the same numbers on any machine and
in any later version of Python. Sources: Gierl & Haladyna 2013 (item models); Brown & Burton 1978
(named slips as whole faulty procedures).
"""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from app.curriculum.questions.evaluation import NoValue, evaluate
from app.curriculum.questions.formula import Calculators, read_formula
from app.curriculum.questions.items import Answer, ChoiceQuestion, ComputedQuestion, Option
from app.trade.units import to_base, unit_named

SEPARATION = Fraction(5, 2)
"""Key and slips lie at least this many tolerances apart, or the variant is not used."""
MOST_DRAWS = 500


class NoVariant(ValueError):
    """None of the draws gave numbers that can be used; the sentence says what went wrong last."""


@dataclass(frozen=True)
class Variant:
    """One asked question: its numbers, its key and what each slip would give, in base units."""

    question_id: str
    version: int
    seed: str
    draw: int
    numbers: Mapping[str, Fraction]
    values: Mapping[str, Fraction]
    key: Fraction
    slips: Mapping[str, Fraction]


def variant_seed(attempt_id: str, question_id: str, version: int) -> str:
    """The seed of a question within an attempt: 64 hex digits, the same for ever.

    Example: variant_seed("a", "b", 1) == variant_seed("a", "b", 1).
    """
    return hashlib.sha256(f"{attempt_id}\x1f{question_id}\x1f{version}".encode()).hexdigest()


def draw_number(seed: str, purpose: str, below: int) -> int:
    """A whole number from 0 to `below` − 1, decided by seed and purpose; ValueError below 1."""
    if below < 1:
        raise ValueError(f"nothing to draw from: {below}")
    digest = hashlib.sha256(f"{seed}\x1f{purpose}".encode()).digest()
    return int.from_bytes(digest, "big") % below


def draw_variant(question: ComputedQuestion, seed: str, calculators: Calculators) -> Variant:
    """The variant that `seed` gives: the first draw whose key and slips can be told apart.

    Raises NoVariant when no draw of MOST_DRAWS can be used.
    """
    last = "no draw was made"
    for draw in range(MOST_DRAWS):
        try:
            return _variant(question, seed, draw, calculators)
        except NoValue as problem:
            last = str(problem)
    raise NoVariant(f"{question.id}: no numbers that can be used in {MOST_DRAWS} draws: {last}")


def _variant(question: ComputedQuestion, seed: str, draw: int, calculators: Calculators) -> Variant:
    numbers: dict[str, Fraction] = {}
    for name, variable in question.variables.items():
        values = variable.values()
        numbers[name] = values[draw_number(seed, f"{draw}:{name}", len(values))]
    base = {
        name: to_base(number, question.variables[name].unit) for name, number in numbers.items()
    }
    key = _number(question.answer.key, base, calculators)
    slips = {slip.id: _number(slip.formula, base, calculators) for slip in question.slips}
    _must_be_apart(question.answer, {"key": key, **slips})
    return Variant(question.id, question.version, seed, draw, numbers, base, key, slips)


def _number(formula: str, values: Mapping[str, Fraction], calculators: Calculators) -> Fraction:
    value = evaluate(read_formula(formula, calculators), values, calculators)
    if isinstance(value, bool) or not isinstance(value, Fraction):
        raise NoValue(f"{formula} gives {value!r}, not a number")
    return value


def _must_be_apart(answer: Answer, values: Mapping[str, Fraction]) -> None:
    named = sorted(values.items(), key=lambda pair: pair[1])
    for (one, low), (other, high) in pairwise(named):
        gap = SEPARATION * max(tolerance(answer, low), tolerance(answer, high))
        if high == low or high - low < gap:
            raise NoValue(f"{one} and {other} lie too close together to be told apart")


def tolerance(answer: Answer, value: Fraction) -> Fraction:
    """How far a typed answer may lie from `value`, both in the base unit of the quantity.

    The larger of the absolute tolerance (written in the answer's unit) and the relative one.
    """
    return max(answer.absolute * unit_named(answer.unit).factor, answer.relative * abs(value))


def working_values(
    question: ComputedQuestion, variant: Variant, calculators: Calculators
) -> dict[str, Fraction]:
    """The named in-between results of the solution, in base units; raises NoValue."""
    found: dict[str, Fraction] = {}
    for name, formula in question.working.items():
        found[name] = _number(formula, {**variant.values, **found}, calculators)
    return found


def options_in_order(question: ChoiceQuestion, seed: str) -> tuple[Option, ...]:
    """The options shuffled by the seed (Fisher–Yates), so that no place is the right one."""
    options = list(question.options)
    for last in range(len(options) - 1, 0, -1):
        place = draw_number(seed, f"option:{last}", last + 1)
        options[last], options[place] = options[place], options[last]
    return tuple(options)


def select_questions(
    questions: Sequence[ChoiceQuestion | ComputedQuestion], attempt_id: str, length: int
) -> tuple[ChoiceQuestion | ComputedQuestion, ...]:
    """The questions of an attempt: every must-know one, then others up to `length`, shuffled.

    A module with fewer questions asks them all. Raises ValueError for a length below 1.
    """
    if length < 1:
        raise ValueError(f"a quiz needs at least one question, not {length}")

    def place(question: ChoiceQuestion | ComputedQuestion) -> int:
        return draw_number(attempt_id, f"question:{question.id}", 2**64)

    must = [question for question in questions if question.must_know]
    others = sorted((one for one in questions if not one.must_know), key=place)
    chosen = must + others[: max(0, length - len(must))]
    return tuple(sorted(chosen, key=place))
