"""The migrations build what the code describes, and the records' table is closed."""

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from flask import Flask
from sqlalchemy import text
from sqlalchemy.exc import DatabaseError

from app.database import db, reading, writing


def test_a_migrated_database_has_exactly_the_tables_of_the_code(app: Flask):
    with app.app_context(), reading() as connection:
        found = compare_metadata(MigrationContext.configure(connection), db.metadata)
    assert found == []


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
    from app.records.ledger import append

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
