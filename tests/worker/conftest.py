"""A new hire of the cast, and quizzes opened with chosen questions."""

from collections.abc import Callable
from datetime import date

import pytest
from flask import Flask
from flask.testing import FlaskClient
from quiz_taker import questions_of

from app.database import reading, writing
from app.ids import PersonId, new_id
from app.records.events import Event
from app.records.ledger.door import append, history_of
from app.workbook.attempts import Answer, Attempt, answers_of, keep_attempt


@pytest.fixture
def ola_id(cast) -> PersonId:
    return cast.add("ola.worker", "worker")


@pytest.fixture
def ola(cast, ola_id: PersonId) -> FlaskClient:
    """Ola's phone, signed in."""
    return cast.sign_in("ola.worker")


@pytest.fixture
def records(app: Flask, ola_id: PersonId) -> Callable[[], list[Event]]:
    """Reads Ola's records as they are now."""

    def read() -> list[Event]:
        with app.app_context(), reading() as connection:
            return [e for e in history_of(connection, ola_id) if e.person == ola_id]

    return read


@pytest.fixture
def keep(app: Flask, clock) -> Callable[..., str]:
    """Appends a record as it would have arrived on its own day."""

    def kept(kind: type[Event], on: date, **values) -> str:
        moment = clock().replace(year=on.year, month=on.month, day=on.day)
        values = {"id": new_id(), "zone": "America/New_York", "recorded_at": moment, **values}
        with app.app_context(), writing() as connection:
            return append(connection, kind(occurred_on=on, **values)).id

    return kept


@pytest.fixture
def quiz_of(app: Flask, clock, ola_id: PersonId) -> Callable[..., str]:
    """Opens a quiz with these questions, in this order; returns its address."""

    def open_quiz(module: str, *items: str, version: int = 0, person: str = ola_id) -> str:
        known = questions_of(module)
        asked = tuple((name, version or known[name]["version"]) for name in items)
        attempt = Attempt(
            id=new_id(),
            person_id=person,
            module_id=module,
            revision=1,
            content_hash="0" * 64,
            items=asked,
            language="en",
            units="us",
            started_at=clock(),
        )
        with app.app_context(), writing() as connection:
            keep_attempt(connection, attempt)
        return f"/quiz/{attempt.id}"

    return open_quiz


@pytest.fixture
def kept_answers(app: Flask) -> Callable[[str], dict[int, Answer]]:
    """Reads the answers kept for a quiz, by its address."""

    def read(address: str) -> dict[int, Answer]:
        with app.app_context(), reading() as connection:
            return answers_of(connection, address.split("/")[2])

    return read
