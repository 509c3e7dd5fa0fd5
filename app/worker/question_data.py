"""What the phone needs to mark a practice question by itself: key, slips, tolerance, words.

Numbers are exact, as "numerator/denominator" in the base unit. Only practice questions are ever
written like this; a quiz that counts is marked by the server.
"""

from fractions import Fraction
from typing import Any

from app.curriculum.model import Curriculum
from app.curriculum.questions.items import ChoiceQuestion, ComputedQuestion
from app.trade.units import unit_named
from app.workbook.attempts import Answer
from app.worker.asking import Asked
from app.worker.explaining import explain_asked
from app.worker.question_sets import QuestionSet


def set_data(curriculum: Curriculum, questions: QuestionSet, language: str) -> dict[str, Any]:
    """Return one round as data for the page's script."""
    return {
        "round": questions.round,
        "questions": [question_data(curriculum, one, language) for one in questions.asked],
    }


def question_data(curriculum: Curriculum, asked: Asked, language: str) -> dict[str, Any]:
    """Return one question: how to mark it, and what to say then."""
    told = explain_asked(curriculum, asked, _unanswered(asked), language)
    common = {
        "item": asked.question.id,
        "version": asked.question.version,
        "right": told.right,
        "solutions": list(told.solutions),
    }
    if isinstance(asked.question, ChoiceQuestion):
        return {**common, **_choice(asked.question, language)}
    return {**common, **_computed(asked, asked.question, language)}


def _choice(question: ChoiceQuestion, language: str) -> dict[str, Any]:
    feedback = {
        option.id: option.feedback.in_language(language)
        for option in question.options
        if option.feedback
    }
    return {"rightOption": question.right_option().id, "feedback": feedback}


def _computed(asked: Asked, question: ComputedQuestion, language: str) -> dict[str, Any]:
    assert asked.variant is not None
    answer, slips = question.answer, asked.variant.slips
    return {
        "quantity": answer.quantity,
        "unit": answer.unit,
        "absolute": _exact(answer.absolute * unit_named(answer.unit).factor),
        "relative": _exact(answer.relative),
        "key": _exact(asked.variant.key),
        "slips": {
            slip.id: [_exact(slips[slip.id]), slip.feedback.in_language(language)]
            for slip in question.slips
        },
    }


def _exact(value: Fraction) -> str:
    return f"{value.numerator}/{value.denominator}"


def _unanswered(asked: Asked) -> Answer:
    question = asked.question
    return Answer(asked.position, question.id, question.version, "", "", False, "")
