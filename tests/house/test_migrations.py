"""The migrations build what the code describes, and the records' table is closed."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from flask import Flask
from sqlalchemy import inspect, text
from sqlalchemy.exc import DatabaseError

from app.database import db, reading, writing
from app.settings import ROOT


def test_a_migrated_database_has_exactly_the_tables_of_the_code(app: Flask):
    with app.app_context(), reading() as connection:
        found = compare_metadata(MigrationContext.configure(connection), db.metadata)
    assert found == []


def test_the_app_by_itself_knows_every_table(app: Flask, tmp_path: Path):
    """In a process of its own, where no test has imported a table: roles are let in by these."""
    tell = "from app.factory import create_app as c; c(); from app.database import db as d"
    tell += "; print(*d.metadata.tables)"
    done = subprocess.run(
        [sys.executable, "-c", tell],
        env={**os.environ, "LOWPORT_INSTANCE": str(tmp_path)},
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    with app.app_context(), reading() as connection:
        there = set(inspect(connection).get_table_names())
    assert set(done.stdout.split()) == there - {"alembic_version"}


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE record SET kind = 'x'",
        "DELETE FROM record",
        "INSERT OR REPLACE INTO record (seq, id, kind, occurred_on, zone, recorded_at, is_shared,"
        " body, hash) VALUES (1, 'a', 'quiz', '2026-01-01', 'UTC', '2026-01-01', 0, x'', x'')",
    ],
)
def test_a_record_is_never_changed(app: Flask, cast, statement: str):
    from datetime import UTC, date, datetime

    from app.records.events import TrainerAuthorised
    from app.records.ledger.door import append

    officer, trainer = cast.add("olga", "safety-officer"), cast.add("tomas", "trainer")
    event = TrainerAuthorised(
        id="a",
        occurred_on=date(2026, 1, 1),
        zone="UTC",
        recorded_at=datetime(2026, 1, 1, tzinfo=UTC),
        recorded_by=officer,
        person=trainer,
        qualification="pump-operator",
    )
    with app.app_context():
        if statement.startswith("INSERT OR REPLACE") and db.engine.dialect.name != "sqlite":
            pytest.skip("Only SQLite has INSERT OR REPLACE; for others see test_append_only.py.")
        with writing() as connection:
            append(connection, event)
        with pytest.raises(DatabaseError, match="records are"), writing() as connection:
            connection.execute(text(statement))
