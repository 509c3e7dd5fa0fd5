"""`lowport database admit`: the servers' own PostgreSQL role, on the app's migrated database."""

from collections.abc import Iterator

import psycopg
import pytest
from click.testing import CliRunner, Result
from records_cast import base
from sqlalchemy import Engine, make_url, text
from sqlalchemy.exc import ProgrammingError

from app.accounts.people import add_person
from app.cli.database import database
from app.database import engine_at, reading_from, writing_to
from app.records.ledger.door import all_events, append
from app.settings import Settings
from tests.conftest import PASSWORD
from tests.postgres_server import Postgres

ROLE = "crew server"  # with a blank, so that it must be quoted


def admit(monkeypatch: pytest.MonkeyPatch, settings: Settings, url: str) -> Result:
    monkeypatch.setenv("LOWPORT_INSTANCE", str(settings.instance))
    monkeypatch.setenv("LOWPORT_SECRET_KEY", "a-secret-for-tests-only")
    monkeypatch.setenv("LOWPORT_DATABASE_URL", url)
    return CliRunner().invoke(database, ["admit", ROLE])


@pytest.fixture
def admitted(
    postgres: Postgres,
    empty_postgres: str,
    settings: Settings,
    monkeypatch: pytest.MonkeyPatch,
) -> Iterator[Engine]:
    """The database as the servers see it."""
    url = postgres.create(empty_postgres)
    postgres.run(f'CREATE ROLE "{ROLE}" LOGIN')
    result = admit(monkeypatch, settings, url)
    assert result.exit_code == 0, result.exception
    yield engine_at(make_url(url).set(username=ROLE).render_as_string(hide_password=False))
    postgres.drop(url)
    postgres.run(f'DROP ROLE "{ROLE}"')


def test_an_admitted_server_adds_people_and_records(admitted: Engine):
    with writing_to(admitted) as connection:
        add_person(
            connection,
            sign_in_name="ola.worker",
            printed_name="Ola Invented",
            password=PASSWORD,
            roles=("worker",),
        )
        for event in base():
            append(connection, event)
        # The database gives out this id from a counter that the role may use.
        row = "(sign_in_name, failed_at) VALUES ('x', now())"
        connection.execute(text(f"INSERT INTO sign_in_failure {row}"))
    with reading_from(admitted) as connection:
        assert list(all_events(connection)) == base()


@pytest.mark.parametrize("statement", ["UPDATE record SET job = ''", "CREATE TABLE x (y int)"])
def test_an_admitted_server_changes_neither_records_nor_tables(admitted: Engine, statement: str):
    with pytest.raises(ProgrammingError) as refused, writing_to(admitted) as connection:
        connection.execute(text(statement))
    assert isinstance(refused.value.orig, psycopg.errors.InsufficientPrivilege)


def test_sqlite_has_no_roles(
    settings: Settings, monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest
):
    url = f"sqlite:///{request.getfixturevalue('empty_database')}"
    result = admit(monkeypatch, settings, url)
    assert result.exit_code == 1
    assert "SQLite has no roles" in result.output
