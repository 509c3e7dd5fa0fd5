"""Practice questions: a set of a module's questions with numbers of its own. No Flask here.

Practice never counts, so its numbers come from the person, the day and the round: they can be
drawn again whenever an answer arrives, and every round of a day is a set of its own.
"""

import uuid
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection

from app.curriculum.model import Module
from app.curriculum.questions.items import ChoiceQuestion
from app.curriculum.questions.marking import Marked, mark_choice, mark_computed
from app.curriculum.questions.variants import draw_variant, select_questions, variant_seed
from app.trade.registry import CALCULATORS
from app.workbook.attempts import Answer
from app.workbook.practice_answers import PracticeAnswer, keep_practice_answer
from app.worker.asking import Asked

QUESTIONS = 6
ROUNDS = 3
"""So many rounds go onto the phone; after the last one the first comes again."""


@dataclass(frozen=True, slots=True)
class QuestionSet:
    """One round of practice questions. ``day`` is written 2026-03-02."""

    module: Module
    person_id: str
    day: str
    round: int
    asked: tuple[Asked, ...]

    def answer_id(self, asked: Asked) -> str:
        """The id of the answer given without a script, the same each time the form is sent."""
        name = f"{self.person_id} {self.day} {self.round} {self.module.id} {asked.question.id}"
        return str(uuid.uuid5(uuid.NAMESPACE_OID, name))


def question_set(module: Module, person_id: str, day: str, number: int) -> QuestionSet:
    """Draw the set of one round of one day."""
    seed = _seed(module.id, person_id, day, number)
    chosen = select_questions(module.questions, seed, QUESTIONS)
    asked = tuple(
        asked_in_round(module, one.id, person_id, day, number, position)
        for position, one in enumerate(chosen, 1)
    )
    return QuestionSet(module, person_id, day, number, asked)


def asked_in_round(
    module: Module, item_id: str, person_id: str, day: str, number: int, position: int = 1
) -> Asked:
    """One question with its numbers; KeyError when the module has no such question."""
    question = module.question(item_id)
    seed = variant_seed(_seed(module.id, person_id, day, number), item_id, question.version)
    if isinstance(question, ChoiceQuestion):
        return Asked(position, question, seed, None)
    return Asked(position, question, seed, draw_variant(question, seed, CALCULATORS))


def _seed(module_id: str, person_id: str, day: str, number: int) -> str:
    return f"practice {person_id} {module_id} {day} {number}"


def mark(asked: Asked, typed: str) -> Marked:
    """Mark a practice answer; raises NoSuchOption or Unreadable."""
    if isinstance(asked.question, ChoiceQuestion):
        return mark_choice(asked.question, typed)
    assert asked.variant is not None
    return mark_computed(asked.question, asked.variant, typed)


def as_answer(asked: Asked, typed: str, marked: Marked) -> Answer:
    """The answer in the form that is explained on pages."""
    return Answer(
        position=asked.position,
        item_id=asked.question.id,
        item_version=asked.question.version,
        typed=typed,
        read_as=marked.said if asked.variant is not None else "",
        is_right=marked.is_right,
        slip=marked.slip_id or "",
    )


def keep_answered(
    connection: Connection, questions: QuestionSet, asked: Asked, answer: Answer, now: datetime
) -> None:
    """Keep an answer of the page without a script; the first one to each question stands."""
    kept = PracticeAnswer(
        id=questions.answer_id(asked),
        person_id=questions.person_id,
        module_id=questions.module.id,
        item_id=answer.item_id,
        item_version=answer.item_version,
        set_day=questions.day,
        set_round=questions.round,
        typed=answer.typed,
        is_right=answer.is_right,
        slip=answer.slip,
        answered_at=now,
    )
    keep_practice_answer(connection, kept)
