"""The table of records on both databases; a test that takes `engine` runs once on each."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner
from flask import Flask
from records_cast import Run, base
from sqlalchemy import Connection, Engine, text

from app.cli.records import records as command
from app.database import engine_at, writing, writing_to
from app.records.ledger.door import append
from app.records.ledger.tables import record
from app.records.ledger.triggers import TRIGGERS
from app.records.projection.stored.interval_tables import TABLES
from app.settings import Settings
from tests.postgres_server import Postgres


def create_records(url: str) -> None:
    """The table with its triggers, and the projection's, as the migration makes them."""
    engine = engine_at(url)
    with writing_to(engine) as connection:
        for table in (record, *TABLES):
            table.create(connection)
        for trigger in TRIGGERS[engine.dialect.name]:
            connection.execute(text(trigger))


@pytest.fixture(scope="session")
def postgres_records(postgres: Postgres) -> str:
    url = postgres.create()
    create_records(url)
    return url


@pytest.fixture
def sqlite_url(tmp_path: Path) -> str:
    url = f"sqlite:///{tmp_path / 'records.db'}"
    create_records(url)
    return url


@pytest.fixture(params=["sqlite", "postgresql"])
def url(request: pytest.FixtureRequest) -> Iterator[str]:
    """A database with an empty table of records."""
    if request.param == "sqlite":
        yield request.getfixturevalue("sqlite_url")
        return
    postgres: Postgres = request.getfixturevalue("postgres")
    url = postgres.create(request.getfixturevalue("postgres_records"))
    yield url
    postgres.drop(url)


@pytest.fixture
def engine(url: str) -> Engine:
    return engine_at(url)


@pytest.fixture
def connection(engine: Engine) -> Iterator[Connection]:
    """A connection inside the writing transaction."""
    with writing_to(engine) as connection:
        yield connection


@pytest.fixture
def run(app: Flask, settings: Settings, monkeypatch: pytest.MonkeyPatch) -> Run:
    """The commands about records, on the app's own database."""
    monkeypatch.setenv("LOWPORT_INSTANCE", str(settings.instance))
    monkeypatch.setenv("LOWPORT_DATABASE_URL", settings.database_url)
    monkeypatch.setenv("LOWPORT_SECRET_KEY", "a-secret-for-tests-only")
    return lambda *words: CliRunner().invoke(command, [str(word) for word in words])


@pytest.fixture
def kept(app: Flask) -> None:
    """Seven records of the cast."""
    with app.app_context(), writing() as connection:
        for event in base():
            append(connection, event)
