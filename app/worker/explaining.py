"""What a marked answer looks like: what was read, what is right, and how it is worked out."""

from dataclasses import dataclass
from fractions import Fraction

from app.curriculum.model import Curriculum, Source
from app.curriculum.questions.items import ChoiceQuestion, ComputedQuestion
from app.curriculum.questions.variants import Variant, working_values
from app.curriculum.questions.wording import in_own_unit, in_system, worked_solution
from app.trade.registry import CALCULATORS
from app.trade.showing import System, digits, mil_as_inches, show
from app.trade.units import from_base, unit_named
from app.workbook.attempts import Answer, Attempt
from app.worker.asking import Asked, QuestionChanged, question_at


@dataclass(frozen=True, slots=True)
class Explained:
    """A marked answer, ready to print. ``text`` is None where the question has changed since.

    ``solutions`` holds the worked solution in the unit system of the question, then in the other
    one where that differs; ``is_worked``: they hold a sum, not only a reason. ``feedback`` speaks
    to this mistake only.
    """

    position: int
    is_right: bool
    is_must_know: bool
    text: str | None
    given: str
    is_worked: bool = False
    right: str = ""
    feedback: str = ""
    solutions: tuple[str, ...] = ()
    source_id: str = ""
    source: Source | None = None


def explain_all(
    curriculum: Curriculum, attempt: Attempt, answers: dict[int, Answer], language: str
) -> list[Explained]:
    """Explain every answer of an attempt, in the order asked."""
    return [explain(curriculum, attempt, answer, language) for answer in answers.values()]


def explain(curriculum: Curriculum, attempt: Attempt, answer: Answer, language: str) -> Explained:
    """Explain one answer; without the question's words where the content has changed since."""
    given = answer.read_as or answer.typed
    try:
        asked = question_at(curriculum, attempt, answer.position)
    except QuestionChanged:
        return Explained(answer.position, answer.is_right, False, None, given)
    return explain_asked(curriculum, asked, answer, language)


def explain_asked(curriculum: Curriculum, asked: Asked, answer: Answer, language: str) -> Explained:
    """Explain the answer to a question that is at hand."""
    if isinstance(asked.question, ChoiceQuestion):
        return _explain_choice(curriculum, asked, asked.question, answer, language)
    assert asked.variant is not None
    return _explain_typed(curriculum, asked, asked.question, asked.variant, answer, language)


def _explain_choice(
    curriculum: Curriculum, asked: Asked, question: ChoiceQuestion, answer: Answer, language: str
) -> Explained:
    texts = {option.id: option.text.in_language(language) for option in question.options}
    chosen = next((o for o in question.options if o.id == answer.typed), None)
    feedback = chosen.feedback.in_language(language) if chosen and chosen.feedback else ""
    return Explained(
        position=asked.position,
        is_right=answer.is_right,
        is_must_know=question.must_know,
        text=asked.words(language),
        given=texts.get(answer.typed, answer.typed),
        right=texts[question.right_option().id],
        feedback="" if answer.is_right else feedback,
        solutions=(question.explanation.in_language(language),),
        source_id=question.source or "",
        source=curriculum.source(question.source) if question.source else None,
    )


def _explain_typed(
    curriculum: Curriculum,
    asked: Asked,
    question: ComputedQuestion,
    variant: Variant,
    answer: Answer,
    language: str,
) -> Explained:
    working = working_values(question, variant, CALCULATORS)
    slips = {slip.id: slip.feedback.in_language(language) for slip in question.slips}
    systems = _systems(question)
    solutions = [worked_solution(question, variant, working, language, s) for s in systems]
    return Explained(
        position=asked.position,
        is_right=answer.is_right,
        is_must_know=question.must_know,
        text=asked.words(language),
        given=answer.read_as or answer.typed,
        is_worked=True,
        right=_in_both(variant.key, question, systems, language),
        feedback=slips.get(answer.slip, ""),
        solutions=tuple(dict.fromkeys(solutions)),
        source_id=question.source,
        source=curriculum.source(question.source),
    )


def _systems(question: ComputedQuestion) -> tuple[System, System]:
    """Both unit systems, the one the answer is asked in first."""
    unit = unit_named(question.answer.unit)
    is_us = in_system(Fraction(1), unit, "us") == in_own_unit(Fraction(1), unit)
    return ("us", "metric") if is_us else ("metric", "us")


# Shown as on a tape or a clock; everything else in the unit the question asks for.
_SHOWN_AS_USUAL = ("length", "time", "ratio", "count", "share")


def _in_both(
    value: Fraction, question: ComputedQuestion, systems: tuple[System, System], language: str
) -> str:
    """The value in the unit asked for and, in brackets, in the other system."""
    quantity, unit = question.answer.quantity, unit_named(question.answer.unit)
    own, other = (show(value, quantity, system) for system in systems)
    if language == "es":
        own, other = mil_as_inches(own), mil_as_inches(other)
    if own == other:
        return own
    if quantity not in _SHOWN_AS_USUAL:
        own = f"{digits(from_base(value, unit.name))} {unit.sign}"
    return f"{own} ({other})"
