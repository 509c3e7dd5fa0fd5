"""Quiz attempts and their answers, kept so that the same questions can be drawn again."""

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, insert, select, update

from app.workbook.tables import quiz_answer, quiz_attempt


@dataclass(frozen=True, slots=True)
class Attempt:
    """One go at a module's quiz. ``id`` is also the seed every question's numbers come from."""

    id: str
    person_id: str
    module_id: str
    revision: int
    content_hash: str
    items: tuple[tuple[str, int], ...]  # (item id, version) in the order asked
    language: str
    units: str
    started_at: datetime
    finished_at: datetime | None = None
    is_passed: bool | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """What was answered at one position; positions start at 1."""

    position: int
    item_id: str
    item_version: int
    typed: str
    read_as: str
    is_right: bool
    slip: str


def keep_attempt(connection: Connection, attempt: Attempt) -> None:
    """Keep a new attempt."""
    connection.execute(
        insert(quiz_attempt).values(
            id=attempt.id,
            person_id=attempt.person_id,
            module_id=attempt.module_id,
            revision=attempt.revision,
            content_hash=attempt.content_hash,
            items=json.dumps(attempt.items),
            language=attempt.language,
            units=attempt.units,
            started_at=attempt.started_at.replace(tzinfo=None),
        )
    )


def attempt_by_id(connection: Connection, attempt_id: str) -> Attempt | None:
    """Return the attempt with this id, or None."""
    found = _attempts(connection, quiz_attempt.c.id == attempt_id)
    return found[0] if found else None


def attempts_of(connection: Connection, person_id: str) -> list[Attempt]:
    """Return a person's attempts, the oldest first."""
    return _attempts(connection, quiz_attempt.c.person_id == person_id)


def attempts_at(connection: Connection, person_id: str, module_id: str) -> list[Attempt]:
    """Return a person's attempts at one module, the oldest first."""
    theirs = quiz_attempt.c.person_id == person_id
    return _attempts(connection, theirs, quiz_attempt.c.module_id == module_id)


def _attempts(connection: Connection, *conditions: Any) -> list[Attempt]:
    query = select(quiz_attempt).where(*conditions)
    # The id sorts by the time it was made, so two attempts in one second keep their order.
    rows = connection.execute(query.order_by(quiz_attempt.c.started_at, quiz_attempt.c.id))
    return [_attempt(row) for row in rows]


def _attempt(row: Row[Any]) -> Attempt:
    values = dict(row._mapping)
    values["items"] = tuple((name, version) for name, version in json.loads(values["items"]))
    return Attempt(**values)


def keep_answer(connection: Connection, attempt_id: str, answer: Answer, now: datetime) -> bool:
    """Keep an answer unless the question has one already: the first answer stands.

    Returns whether this one was kept. Call it inside the writing transaction.
    """
    taken = select(quiz_answer.c.position).where(
        quiz_answer.c.attempt_id == attempt_id, quiz_answer.c.position == answer.position
    )
    if connection.scalar(taken) is not None:
        return False
    connection.execute(
        insert(quiz_answer).values(
            attempt_id=attempt_id,
            position=answer.position,
            item_id=answer.item_id,
            item_version=answer.item_version,
            typed=answer.typed,
            read_as=answer.read_as,
            is_right=answer.is_right,
            slip=answer.slip,
            answered_at=now.replace(tzinfo=None),
        )
    )
    return True


def answers_of(connection: Connection, attempt_id: str) -> dict[int, Answer]:
    """Return the answers given so far, by position."""
    columns = [quiz_answer.c[name] for name in Answer.__dataclass_fields__]
    query = select(*columns).where(quiz_answer.c.attempt_id == attempt_id)
    rows = connection.execute(query.order_by(quiz_answer.c.position))
    return {row.position: Answer(*row) for row in rows}


def finish_attempt(connection: Connection, attempt_id: str, is_passed: bool, now: datetime) -> None:
    """Close an attempt with its result."""
    connection.execute(
        update(quiz_attempt)
        .where(quiz_attempt.c.id == attempt_id, quiz_attempt.c.finished_at.is_(None))
        .values(finished_at=now.replace(tzinfo=None), is_passed=is_passed)
    )
