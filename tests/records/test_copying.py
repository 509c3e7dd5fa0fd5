"""Moving everything to an empty database, from SQLite to PostgreSQL and back."""

import shutil
from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest
from click.testing import CliRunner
from flask import Flask
from records_cast import base
from sqlalchemy import Engine, Table, func, insert, select, text, update

from app.accounts.tables import browser_session, person, sign_in_failure
from app.cli.records import records as command
from app.curriculum.model import Curriculum
from app.database import db, engine_at, reading, reading_from, writing, writing_to
from app.demo.loading import load_demo
from app.records.ledger.copying import CopyDiffers, NotEmpty, NotMigrated, copy_everything
from app.records.ledger.door import append
from app.records.ledger.tables import record
from app.records.ledger.triggers import SQLITE_TRIGGER_NAMES
from app.records.projection.stored.interval_tables import TABLES
from app.records.proof.checkpoint import newest_line
from app.records.proof.verifying import verify
from app.settings import Settings
from tests.postgres_server import Postgres


def copied() -> list[Table]:
    """All but the projection, which is made anew from the records that arrive."""
    return [table for table in db.metadata.sorted_tables if table not in TABLES]


@pytest.fixture(scope="session")
def demo_file(
    empty_database: Path, tmp_path_factory: pytest.TempPathFactory, curriculum: Curriculum
) -> Path:
    """A SQLite database with the demo crew, its records and its jobs."""
    path = tmp_path_factory.mktemp("demo") / "lowport.db"
    shutil.copy(empty_database, path)
    with writing_to(engine_at(f"sqlite:///{path}")) as connection:
        load_demo(connection, curriculum, datetime(2026, 3, 2, 14, tzinfo=UTC), "America/Chicago")
    return path


@pytest.fixture
def source(demo_file: Path, tmp_path: Path) -> Engine:
    (tmp_path / "source").mkdir()
    shutil.copy(demo_file, tmp_path / "source")
    return engine_at(f"sqlite:///{tmp_path / 'source' / 'lowport.db'}")


@pytest.fixture(params=["sqlite", "postgresql"])
def target(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Engine]:
    """An empty, migrated database."""
    if request.param == "sqlite":
        yield empty_file(request, tmp_path)
        return
    postgres: Postgres = request.getfixturevalue("postgres")
    url = postgres.create(request.getfixturevalue("empty_postgres"))
    yield engine_at(url)
    postgres.drop(url)


def empty_file(request: pytest.FixtureRequest, folder: Path) -> Engine:
    shutil.copy(request.getfixturevalue("empty_database"), folder / "empty.db")
    return engine_at(f"sqlite:///{folder / 'empty.db'}")


def copy(source: Engine, target: Engine) -> int:
    with reading_from(source) as here, writing_to(target) as there:
        return copy_everything(here, there, copied())


def everything(engine: Engine) -> dict[str, list[tuple]]:
    """All rows of all tables that are copied."""
    with reading_from(engine) as connection:
        return {
            table.name: [
                tuple(row)
                for row in connection.execute(select(table).order_by(*table.primary_key.columns))
            ]
            for table in copied()
        }


def test_every_row_arrives_and_the_checkpoint_is_the_same(source: Engine, target: Engine):
    rows = copy(source, target)
    here, there = everything(source), everything(target)
    assert there == here
    assert rows == sum(len(found) for found in here.values())
    assert len(here["record"]) > 50
    with reading_from(source) as one, reading_from(target) as other:
        assert verify(other, is_deep=True).wrong is None
        assert newest_line(one) == newest_line(other) != ""


def test_there_and_back_again_nothing_is_lost(
    source: Engine, target: Engine, request: pytest.FixtureRequest, tmp_path: Path
):
    copy(source, target)
    (tmp_path / "home").mkdir()
    home = empty_file(request, tmp_path / "home")
    copy(target, home)
    assert everything(home) == everything(source)


def test_a_copy_is_worked_on_at_once(source: Engine, target: Engine):
    row = {"sign_in_name": "nia", "failed_at": func.now()}
    with writing_to(source) as connection:
        connection.execute(insert(sign_in_failure).values(row))
    copy(source, target)
    with writing_to(target) as connection:
        # The database gives out the id, beyond those that were copied.
        connection.execute(insert(sign_in_failure).values(row))
        assert connection.scalar(select(func.count()).select_from(sign_in_failure)) == 2


def test_a_database_without_tables_is_refused(source: Engine, tmp_path: Path):
    with pytest.raises(NotMigrated, match="lowport database upgrade"):
        copy(source, engine_at(f"sqlite:///{tmp_path / 'nothing.db'}"))


def test_a_database_with_anything_in_it_is_refused(source: Engine, target: Engine):
    values = {"id": "a", "sign_in_name": "x", "printed_name": "X", "password_hash": ""}
    with writing_to(target) as connection:
        connection.execute(insert(person).values(values))
    with pytest.raises(NotEmpty, match="person"):
        copy(source, target)
    assert len(everything(target)["person"]) == 1


def test_records_that_do_not_hold_are_not_copied(source: Engine, target: Engine):
    with writing_to(source) as connection:
        connection.execute(text(f"DROP TRIGGER {SQLITE_TRIGGER_NAMES[0]}"))
        connection.execute(update(record).where(record.c.seq == 9).values(body=b"{}"))
    with pytest.raises(CopyDiffers, match="record 9"):
        copy(source, target)
    assert everything(target)["person"] == []


def test_the_command_copies_all_but_sessions(
    app: Flask, cast, settings: Settings, target: Engine, monkeypatch: pytest.MonkeyPatch
):
    ola = cast.add("ola.worker")
    cast.sign_in("ola.worker")
    with app.app_context(), writing() as connection:
        append(connection, replace(base()[0], person=ola))
    monkeypatch.setenv("LOWPORT_INSTANCE", str(settings.instance))
    monkeypatch.setenv("LOWPORT_DATABASE_URL", settings.database_url)
    monkeypatch.setenv("LOWPORT_SECRET_KEY", "a-secret-for-tests-only")
    url = target.url.render_as_string(hide_password=False)
    result = CliRunner().invoke(command, ["copy", "--to", url])
    assert result.exit_code == 0, result.exception
    found = everything(target)
    assert "The board is ready: 1 records" in result.output
    assert len(found["person"]) == 1
    assert found["browser_session"] == []
    with app.app_context(), reading() as here:
        assert here.scalar(select(func.count()).select_from(browser_session)) == 1
