"""Somebody with the database file changes a record; verifying names the first wrong one."""

import sqlite3
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

import pytest
from records_cast import base, countered
from sqlalchemy import create_engine, text

from app.database import prepare_engine
from app.records.ledger import append
from app.records.tables import record
from app.records.triggers import SQLITE_TRIGGER_NAMES, SQLITE_TRIGGERS
from app.records.verifying import Verified, verify


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A file with the base history, and a correction of a trainer's authorisation."""
    path = tmp_path / "records.db"
    engine = create_engine(f"sqlite:///{path}")
    prepare_engine(engine)
    with engine.begin() as connection:
        record.create(connection)
        for trigger in SQLITE_TRIGGERS:
            connection.execute(text(trigger))
        for event in base():
            append(connection, event)
        append(connection, countered("x1", "2024-03-20", "auth-A2", person="A2"))
    engine.dispose()
    return path


@pytest.fixture
def tamper(path: Path) -> Iterator[sqlite3.Connection]:
    """The owner of the file at work: the triggers are gone."""
    raw = sqlite3.connect(path)
    for name in SQLITE_TRIGGER_NAMES:
        raw.execute(f"DROP TRIGGER {name}")
    yield raw
    raw.close()


def verified(path: Path) -> Verified:
    engine = create_engine(f"sqlite:///{path}")
    try:
        with engine.connect() as connection:
            return verify(connection)
    finally:
        engine.dispose()


def test_untouched_records_hold(path: Path):
    found = verified(path)
    assert (found.count, found.wrong) == (8, None)


def test_the_last_hash_can_be_worked_out_with_sha_256_alone(path: Path):
    previous = bytes(32)
    for (body,) in sqlite3.connect(path).execute("SELECT body FROM record ORDER BY seq"):
        previous = sha256(previous + body).digest()
    assert verified(path).last_hash == previous.hex()


@pytest.mark.parametrize(
    ("statement", "seq", "says"),
    [
        (
            "UPDATE record SET body = CAST(replace(body, 'A1', 'A9') AS BLOB) WHERE seq = 5",
            5,
            "bytes",
        ),
        ("UPDATE record SET hash = zeroblob(32) WHERE seq = 3", 3, "bytes"),
        ("DELETE FROM record WHERE seq = 4", 5, "record 4 is missing"),
        ("UPDATE record SET seq = 90 WHERE seq = 4", 5, "record 4 is missing"),
        ("UPDATE record SET person = 'V' WHERE seq = 6", 6, "column person"),
        ("UPDATE record SET is_passed = 0 WHERE seq = 4", 4, "column is_passed"),
        ("UPDATE record SET occurred_on = '2023-01-01' WHERE seq = 7", 7, "column occurred_on"),
        ("UPDATE record SET is_shared = 0 WHERE seq = 1", 1, "column is_shared"),
        ("UPDATE record SET is_shared = 0 WHERE seq = 8", 8, "column is_shared"),
        ("UPDATE record SET is_shared = 1 WHERE seq = 4", 4, "column is_shared"),
        ("UPDATE record SET job = 'R1' WHERE seq = 7", 7, "column job"),
    ],
)
def test_the_first_wrong_record_is_named(
    tamper: sqlite3.Connection, path: Path, statement: str, seq: int, says: str
):
    tamper.execute(statement)
    tamper.commit()
    wrong = verified(path).wrong
    assert wrong is not None
    assert wrong.seq == seq
    assert says in wrong.sentence


def test_two_records_that_change_places_are_found(tamper: sqlite3.Connection, path: Path):
    for statement in (
        "UPDATE record SET seq = 100 WHERE seq = 5",
        "UPDATE record SET seq = 5 WHERE seq = 6",
        "UPDATE record SET seq = 6 WHERE seq = 100",
    ):
        tamper.execute(statement)
    tamper.commit()
    wrong = verified(path).wrong
    assert wrong is not None
    assert wrong.seq == 5


def test_a_kind_of_the_future_is_not_passed_over(tamper: sqlite3.Connection, path: Path):
    (previous,) = tamper.execute("SELECT hash FROM record WHERE seq = 8").fetchone()
    body = b'{"kind":"promotion","version":1}'
    tamper.execute(
        "INSERT INTO record (seq, id, kind, occurred_on, zone, recorded_at, is_shared, body, hash)"
        " VALUES (9, 'n', 'promotion', '', '', '', 0, ?, ?)",
        (body, sha256(previous + body).digest()),
    )
    tamper.commit()
    wrong = verified(path).wrong
    assert wrong is not None
    assert "promotion" in wrong.sentence
