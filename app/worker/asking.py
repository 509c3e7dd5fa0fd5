"""The questions of an attempt, drawn again from its seed whenever they are needed."""

from dataclasses import dataclass
from fractions import Fraction

from app.curriculum.model import Curriculum
from app.curriculum.questions.items import ChoiceQuestion, ComputedQuestion, Option
from app.curriculum.questions.variants import (
    Variant,
    draw_variant,
    options_in_order,
    select_questions,
    variant_seed,
)
from app.curriculum.questions.wording import asked as asked_in_words
from app.trade.registry import CALCULATORS
from app.workbook.attempts import Attempt

Question = ChoiceQuestion | ComputedQuestion


class QuestionChanged(LookupError):
    """The content no longer holds the question in the version that was asked."""


@dataclass(frozen=True, slots=True)
class Asked:
    """One question as it stands in one attempt; ``variant`` is None for a choice."""

    position: int
    question: Question
    seed: str
    variant: Variant | None

    @property
    def options(self) -> tuple[Option, ...]:
        """The options in this attempt's order."""
        assert isinstance(self.question, ChoiceQuestion)
        return options_in_order(self.question, self.seed)

    def words(self, language: str) -> str:
        """The question in words, with this attempt's numbers."""
        if isinstance(self.question, ChoiceQuestion):
            return self.question.text.in_language(language)
        assert self.variant is not None
        return asked_in_words(self.question, self.variant, language)


@dataclass(frozen=True, slots=True)
class QuizRule:
    """How many questions a quiz asks and which share must be right."""

    length: int
    pass_share: Fraction


def quiz_rule(curriculum: Curriculum, module_id: str) -> QuizRule:
    """Return the strictest rule of the qualifications that ask for this module."""
    asking = [q for q in curriculum.qualifications.values() if module_id in q.modules]
    return QuizRule(max(q.quiz_questions for q in asking), max(q.quiz_pass_share for q in asking))


def items_for(
    curriculum: Curriculum, module_id: str, attempt_id: str
) -> tuple[tuple[str, int], ...]:
    """Choose the questions of a new attempt: (item id, version) in the order asked."""
    module = curriculum.module(module_id)
    rule = quiz_rule(curriculum, module_id)
    chosen = select_questions(module.questions, attempt_id, rule.length)
    return tuple((question.id, question.version) for question in chosen)


def question_at(curriculum: Curriculum, attempt: Attempt, position: int) -> Asked:
    """Return the question at a position (from 1), with the numbers of this attempt.

    Raises QuestionChanged when the content holds another version of it by now.
    """
    item_id, version = attempt.items[position - 1]
    question = _question(curriculum, attempt.module_id, item_id, version)
    seed = variant_seed(attempt.id, item_id, version)
    if isinstance(question, ChoiceQuestion):
        return Asked(position, question, seed, None)
    return Asked(position, question, seed, draw_variant(question, seed, CALCULATORS))


def is_still_asked(curriculum: Curriculum, attempt: Attempt) -> bool:
    """Say whether every question of the attempt is still in the content, in its version."""
    try:
        for item_id, version in attempt.items:
            _question(curriculum, attempt.module_id, item_id, version)
    except QuestionChanged:
        return False
    return True


def _question(curriculum: Curriculum, module_id: str, item_id: str, version: int) -> Question:
    try:
        question = curriculum.module(module_id).question(item_id)
    except KeyError as missing:
        raise QuestionChanged(f"{module_id} {item_id}") from missing
    if question.version != version:
        raise QuestionChanged(f"{module_id} {item_id} version {version}")
    return question
