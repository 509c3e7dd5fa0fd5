"""PURE. Marking answers: exact comparison, diagnosis of slips, and the quiz as a whole.

An answer is right if |answer − key| ≤ max(absolute, relative · |key|), the limit included, in
exact arithmetic. A wrong one within tolerance of exactly one slip gets that slip's feedback.
No credit is given for a slip. Source: Brown & Burton 1978 (diagnosis by whole faulty procedures).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from app.curriculum.questions.items import Answer, ChoiceQuestion, ComputedQuestion
from app.curriculum.questions.variants import Variant, tolerance
from app.trade.lengths import read_quantity

Diagnosis = Literal["right", "slip", "ambiguous", "unknown"]


class NoSuchOption(ValueError):
    """The option answered is not one of the question's."""


@dataclass(frozen=True)
class Marked:
    """One marked answer. `said` is what was read; `slip_id` stands only for diagnosis slip."""

    is_right: bool
    diagnosis: Diagnosis
    said: str = ""
    value: Fraction | None = None
    slip_id: str | None = None


def mark_computed(question: ComputedQuestion, variant: Variant, typed: str) -> Marked:
    """Mark a typed answer; a bare number is in the answer's unit.

    Raises app.trade.lengths.Unreadable, whose sentence is for the page: nothing was answered yet.
    """
    answer = question.answer
    reading = read_quantity(typed, answer.quantity, answer.unit)
    diagnosis, slip_id = diagnose(answer, variant.key, variant.slips, reading.value)
    return Marked(diagnosis == "right", diagnosis, reading.said, reading.value, slip_id)


def diagnose(
    answer: Answer, key: Fraction, slips: Mapping[str, Fraction], value: Fraction
) -> tuple[Diagnosis, str | None]:
    """What a value in the base unit is: right, exactly one slip, several, or none we know."""
    if is_close(answer, value, key):
        return "right", None
    matching = [name for name, slip in slips.items() if is_close(answer, value, slip)]
    if len(matching) == 1:
        return "slip", matching[0]
    return ("ambiguous", None) if matching else ("unknown", None)


def is_close(answer: Answer, value: Fraction, target: Fraction) -> bool:
    """Within the tolerance around `target`, the limit included; both in the base unit."""
    return abs(value - target) <= tolerance(answer, target)


def mark_choice(question: ChoiceQuestion, option_id: str) -> Marked:
    """Mark a ticked option; raises NoSuchOption."""
    for option in question.options:
        if option.id == option_id:
            return Marked(option.right, "right" if option.right else "unknown", option_id)
    raise NoSuchOption(f"{question.id} has no option {option_id!r}")


@dataclass(frozen=True)
class QuizResult:
    """The quiz as a whole. `must_know_missed` alone keeps it from passing."""

    passed: bool
    right: int
    asked: int
    needed: int
    must_know_missed: tuple[str, ...]


def decide_quiz(
    questions: Sequence[ChoiceQuestion | ComputedQuestion],
    marks: Mapping[str, bool],
    pass_share: Fraction,
) -> QuizResult:
    """Pass or not yet for a quiz of fixed length; `marks` by question id, `pass_share` 0–1.

    Raises ValueError for a question without a mark or a mark without a question.
    """
    ids = [question.id for question in questions]
    if not ids or sorted(ids) != sorted(marks):
        raise ValueError(f"asked {ids} but marked {sorted(marks)}")
    missed = tuple(one.id for one in questions if one.must_know and not marks[one.id])
    right = sum(marks.values())
    needed = -((-pass_share * len(ids)) // 1)
    return QuizResult(right >= needed and not missed, right, len(ids), int(needed), missed)
