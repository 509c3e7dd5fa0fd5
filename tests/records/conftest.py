"""The table of records on both databases; a test that takes `engine` runs once on each."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from sqlalchemy import Connection, Engine, text

from app.database import engine_at, writing_to
from app.records.projection.stored.interval_tables import TABLES
from app.records.tables import record
from app.records.triggers import TRIGGERS
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
