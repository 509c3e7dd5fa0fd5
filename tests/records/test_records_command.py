"""The command `records verify`, on the app's own migrated database."""

import sqlite3

import pytest
from click.testing import CliRunner, Result
from flask import Flask
from records_cast import base

from app.cli.records import records as command
from app.database import writing
from app.records.ledger import append
from app.records.triggers import SQLITE_TRIGGER_NAMES
from app.settings import Settings


@pytest.fixture
def verify(app: Flask, settings: Settings, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setenv("LOWPORT_INSTANCE", str(settings.instance))
    monkeypatch.setenv("LOWPORT_SECRET_KEY", "a-secret-for-tests-only")

    def run() -> Result:
        return CliRunner().invoke(command, ["verify"])

    return run


@pytest.fixture
def kept(app: Flask) -> None:
    with app.app_context(), writing() as connection:
        for event in base():
            append(connection, event)


def test_no_records_yet(verify):
    assert verify().output == "There are no records yet.\n"


def test_whole_records_are_counted(verify, kept):
    result = verify()
    assert result.exit_code == 0
    assert result.output.startswith("7 records hold. The last hash is ")


def test_a_changed_record_is_named(verify, kept, settings: Settings):
    raw = sqlite3.connect(settings.instance / "lowport.db")
    for name in SQLITE_TRIGGER_NAMES:
        raw.execute(f"DROP TRIGGER {name}")  # fails unless the migration made it
    raw.execute("UPDATE record SET person = 'V' WHERE id = 'p2'")
    raw.commit()
    raw.close()
    result = verify()
    assert result.exit_code == 1
    assert "Record 6 (p2) is wrong: its column person says 'V'" in result.output


def test_the_migrated_table_is_strict(app: Flask, settings: Settings):
    raw = sqlite3.connect(settings.instance / "lowport.db")
    (sql,) = raw.execute("SELECT sql FROM sqlite_master WHERE name = 'record'").fetchone()
    raw.close()
    assert sql.rstrip().endswith("STRICT")
