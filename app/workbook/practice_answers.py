"""Answers to practice questions: they count for nothing and show what a person still mixes up."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, insert, select

from app.workbook.outbox_tables import practice_answer


@dataclass(frozen=True, slots=True)
class PracticeAnswer:
    """One answer. ``is_right`` is None where the question has changed since it was asked."""

    id: str
    person_id: str
    module_id: str
    item_id: str
    item_version: int
    set_day: str
    set_round: int
    typed: str
    is_right: bool | None
    slip: str
    answered_at: datetime


def keep_practice_answer(connection: Connection, answer: PracticeAnswer) -> None:
    """Keep an answer; one with the same id is kept already and stands."""
    known = select(practice_answer.c.id).where(practice_answer.c.id == answer.id)
    if connection.scalar(known) is not None:
        return
    values = {name: getattr(answer, name) for name in PracticeAnswer.__dataclass_fields__}
    values["answered_at"] = answer.answered_at.replace(tzinfo=None)
    connection.execute(insert(practice_answer).values(values))


def practice_answers_of(
    connection: Connection, person_id: str, module_id: str
) -> list[PracticeAnswer]:
    """Return a person's practice answers in one module, the oldest first."""
    query = select(practice_answer).where(
        practice_answer.c.person_id == person_id, practice_answer.c.module_id == module_id
    )
    rows = connection.execute(query.order_by(practice_answer.c.answered_at, practice_answer.c.id))
    return [PracticeAnswer(**row._mapping) for row in rows]
