"""A record is never changed, deleted, replaced or put in between, on either database."""

import psycopg
import pytest
from records_cast import base, quiz
from sqlalchemy import Engine, inspect, make_url, text
from sqlalchemy.exc import IntegrityError, ProgrammingError

from app.database import engine_at, writing_to
from app.records.ledger.door import all_events, append
from app.records.ledger.triggers import granting_to
from tests.postgres_server import Postgres

NEW_ROW = (
    "(seq, id, kind, occurred_on, zone, recorded_at, is_shared, body, hash, node) "
    "VALUES ({}, '{}', 'x', 'x', 'x', 'x', 0, {}, {}, {})"
)
ON_BOTH = [
    "UPDATE record SET person = 'X' WHERE id = 'p1'",
    "UPDATE record SET seq = seq + 100",
    "DELETE FROM record WHERE id = 'p1'",
    "DELETE FROM record",
]
ON_SQLITE = [
    "UPDATE OR REPLACE record SET id = 'q1' WHERE id = 'p1'",
    "INSERT OR REPLACE INTO record SELECT * FROM record WHERE id = 'p1'",
    "REPLACE INTO record SELECT * FROM record WHERE id = 'p1'",
    "INSERT OR REPLACE INTO record " + NEW_ROW.format(8, "p1", "x'00'", "x'00'", "x'00'"),
    "INSERT INTO record " + NEW_ROW.format(99, "new", "x'00'", "x'00'", "x'00'"),
]
ON_POSTGRES = [
    "TRUNCATE record",
    "TRUNCATE record CASCADE",
    "INSERT INTO record SELECT * FROM record WHERE id = 'p1' "
    "ON CONFLICT (id) DO UPDATE SET person = 'X'",
    "INSERT INTO record " + NEW_ROW.format(99, "new", "'x'", "'x'", "'x'"),
    "WITH made AS (SELECT 1) UPDATE record SET job = '' FROM made",
]


def keep_base(engine: Engine) -> None:
    with writing_to(engine) as connection:
        for event in base():
            append(connection, event)


def assert_refused(engine: Engine, *statements: str, says: str = "records are") -> None:
    def attempt() -> None:
        with writing_to(engine) as connection:
            for statement in statements:
                connection.execute(text(statement))

    with pytest.raises(IntegrityError, match=says):
        attempt()
    with engine.connect() as connection:
        assert list(all_events(connection)) == base()


@pytest.mark.parametrize("statement", ON_BOTH)
def test_nothing_is_ever_changed(engine: Engine, statement: str):
    keep_base(engine)
    assert_refused(engine, statement)


@pytest.mark.parametrize("statement", ON_SQLITE)
@pytest.mark.parametrize("recursive", ["ON", "OFF"])
def test_sqlite_s_ways_round_are_closed(sqlite_url: str, statement: str, recursive: str):
    engine = engine_at(sqlite_url)
    keep_base(engine)
    # The pragma counts only outside of a transaction, so it is set on a connection of its own.
    with engine.connect() as connection:
        raw = connection.connection.driver_connection
        raw.execute(f"PRAGMA recursive_triggers={recursive}")
        with pytest.raises(IntegrityError, match="records are"):
            connection.execute(text(statement))
        connection.rollback()
        assert list(all_events(connection)) == base()


def test_sqlite_refuses_a_value_of_another_type(sqlite_url: str):
    row = NEW_ROW.replace(", 0, ", ", 'yes', ").format(1, "n", "x'00'", "x'00'", "x'00'")
    with (
        pytest.raises(IntegrityError, match="cannot store TEXT"),
        writing_to(engine_at(sqlite_url)) as connection,
    ):
        connection.execute(text("INSERT INTO record " + row))


@pytest.fixture
def postgres_engine(postgres: Postgres, postgres_records: str):
    url = postgres.create(postgres_records)
    yield engine_at(url)
    postgres.drop(url)


@pytest.mark.parametrize("statement", ON_POSTGRES)
def test_postgres_s_ways_round_are_closed(postgres_engine: Engine, statement: str):
    keep_base(postgres_engine)
    assert_refused(postgres_engine, statement)


def test_a_temporary_table_of_the_same_name_misleads_nobody(postgres_engine: Engine):
    keep_base(postgres_engine)
    assert_refused(
        postgres_engine,
        "CREATE TEMPORARY TABLE record (seq integer, id text)",
        "INSERT INTO public.record " + NEW_ROW.format(1, "new", "'x'", "'x'", "'x'"),
    )


@pytest.mark.parametrize("statement", ["TRUNCATE record", *ON_BOTH])
def test_the_migration_closes_the_table_on_postgres(
    postgres: Postgres, empty_postgres: str, statement: str
):
    url = postgres.create(empty_postgres)
    engine = engine_at(url)
    keep_base(engine)
    assert_refused(engine, statement)
    postgres.drop(url)


@pytest.fixture
def as_server(postgres: Postgres, postgres_engine: Engine) -> Engine:
    """A role that the servers sign in as: not the owner of the table."""
    keep_base(postgres_engine)
    postgres.run("DROP ROLE IF EXISTS lowport_server")
    postgres.run("CREATE ROLE lowport_server LOGIN")
    with writing_to(postgres_engine) as connection:
        connection.execute(text("CREATE TABLE job (id text)"))
        connection.execute(text("CREATE TABLE alembic_version (version_num text)"))
        others = set(inspect(connection).get_table_names()) - {"record", "alembic_version"}
        for statement in granting_to("lowport_server", sorted(others), "public"):
            connection.execute(text(statement))
    url = make_url(postgres_engine.url).set(username="lowport_server")
    return engine_at(url.render_as_string(hide_password=False))


def test_the_servers_role_can_append_and_work(as_server: Engine):
    with writing_to(as_server) as connection:
        append(connection, quiz("q9", "2024-03-01"))
        connection.execute(text("INSERT INTO job VALUES ('a')"))
        connection.execute(text("DELETE FROM job"))


@pytest.mark.parametrize(
    "statement",
    [
        *ON_BOTH,
        "TRUNCATE record",
        "DROP TABLE record",
        "ALTER TABLE record DISABLE TRIGGER ALL",
        "DROP TRIGGER record_no_update ON record",
        "DROP FUNCTION record_refuse CASCADE",
        "SET session_replication_role = replica",
        "UPDATE alembic_version SET version_num = ''",
    ],
)
def test_the_servers_role_can_do_nothing_else_to_records(as_server: Engine, statement: str):
    with (
        pytest.raises(ProgrammingError) as refused,
        writing_to(as_server) as connection,
    ):
        connection.execute(text(statement))
    assert isinstance(refused.value.orig, psycopg.errors.InsufficientPrivilege)
