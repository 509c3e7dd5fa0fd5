"""The database handle, how each connection is set up, and the one way to write.

SQLite: WAL, full sync, foreign keys, recursive triggers (without them INSERT OR REPLACE walks
past the append-only triggers). A writing transaction begins IMMEDIATE, because a deferred one
that reads before it writes fails at once when another writer is ahead of it. SQLite lets one
writer in and has the others ask again and again; with sixteen of them some never get in. So they
queue up in front of it, threads and processes: a writer takes the door, then the room, then leaves
the door. Whoever is next holds the door already, and one that comes straight back can't pass.

PostgreSQL: a writing transaction first takes one advisory lock, which is the queue of all servers
behind one database. A reading one keeps to one state of the database, as SQLite does by itself.
"""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock
from typing import Any

from flask_sqlalchemy import SQLAlchemy
from sqlalchemy import Connection, Engine, NullPool, create_engine, event

try:
    from fcntl import LOCK_EX, LOCK_UN, flock
except ImportError:  # Windows: one server process, so that its threads are all there is to queue
    flock = None  # type: ignore[assignment]

db = SQLAlchemy()

_door, _room = Lock(), Lock()

_PRAGMAS = (
    "PRAGMA journal_mode=WAL",
    "PRAGMA synchronous=FULL",
    "PRAGMA busy_timeout=5000",
    "PRAGMA foreign_keys=ON",
    "PRAGMA recursive_triggers=ON",
)
# Any fixed number will do; two installations in one database would only wait for each other.
_TAKE_LOCK = "SELECT pg_advisory_xact_lock(676978)"


def prepare_engine(engine: Engine) -> None:
    """Set up each new connection and how its transactions begin, for SQLite and PostgreSQL."""
    {"sqlite": _prepare_sqlite, "postgresql": _prepare_postgres}[engine.dialect.name](engine)


def _prepare_sqlite(engine: Engine) -> None:
    """Set the pragmas, and let SQLAlchemy alone begin transactions."""

    @event.listens_for(engine, "connect")
    def on_connect(raw: Any, _record: Any) -> None:
        raw.isolation_level = None
        for pragma in _PRAGMAS:
            raw.execute(pragma)

    @event.listens_for(engine, "begin")
    def on_begin(connection: Connection) -> None:
        # Past SQLAlchemy, which takes longer over these words than SQLite; every page begins some.
        raw: Any = connection.connection
        raw.execute("BEGIN IMMEDIATE" if _is_writing(connection) else "BEGIN")


def _prepare_postgres(engine: Engine) -> None:
    """Count times in UTC as SQLite does, and queue up to write."""

    @event.listens_for(engine, "connect")
    def on_connect(raw: Any, _record: Any) -> None:
        raw.execute("SET TIME ZONE 'UTC'")
        raw.commit()

    @event.listens_for(engine, "begin")
    def on_begin(connection: Connection) -> None:
        if _is_writing(connection):
            connection.exec_driver_sql(_TAKE_LOCK)


def _is_writing(connection: Connection) -> bool:
    return bool(connection.get_execution_options().get("is_writing", False))


@contextmanager
def reading() -> Iterator[Connection]:
    """Yield a connection that sees one state of the database from its first query on."""
    with reading_from(db.engine) as connection:
        yield connection


@contextmanager
def writing() -> Iterator[Connection]:
    """Yield a connection inside the writing transaction: all of it is kept, or none."""
    with writing_to(db.engine) as connection:
        yield connection


def engine_at(url: str) -> Engine:
    """A prepared engine of one's own, for another database or another process."""
    engine = create_engine(url, poolclass=NullPool)
    prepare_engine(engine)
    return engine


def empty_write_ahead_log(engine: Engine) -> None:
    """After much was written, move it into SQLite's main file: pages in the log are slower to read.

    What readers still look at stays in the log for later. Nothing to do on PostgreSQL.
    """
    if engine.dialect.name == "sqlite":
        raw = engine.raw_connection()
        try:
            raw.cursor().execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()
        finally:
            raw.close()


@contextmanager
def reading_from(engine: Engine) -> Iterator[Connection]:
    """The same as reading(), on a prepared engine of one's own."""
    with engine.connect() as connection:
        if engine.dialect.name == "postgresql":
            connection.execution_options(
                isolation_level="REPEATABLE READ", postgresql_readonly=True
            )
        yield connection


@contextmanager
def writing_to(engine: Engine) -> Iterator[Connection]:
    """The same as writing(), on a prepared engine of one's own."""
    with (
        _turn_to_write(_file_of(engine)),
        engine.connect() as connection,
        connection.execution_options(is_writing=True).begin(),
    ):
        yield connection


def _file_of(engine: Engine) -> str | None:
    """The SQLite file behind an engine, if there is one."""
    name = engine.url.database
    return name if engine.dialect.name == "sqlite" and name and name != ":memory:" else None


@contextmanager
def _turn_to_write(path: str | None) -> Iterator[None]:
    """Wait for the turn to write; path: the database's file, None where it queues by itself."""
    with _door:
        _room.acquire()
    try:
        if path is None or flock is None:
            yield
        else:
            with _turn_among_processes(path):
                yield
    finally:
        _room.release()


@contextmanager
def _turn_among_processes(path: str) -> Iterator[None]:
    """The same with two files beside the database; a process that dies lets go of both."""
    with _locked(f"{path}-door") as door, _locked(f"{path}-room"):
        flock(door, LOCK_UN)
        yield


@contextmanager
def _locked(path: str) -> Iterator[int]:
    # To lock a file, reading it is enough: it may have been made by a command of another user.
    file = os.open(path, os.O_RDONLY | os.O_CREAT, 0o644)
    try:
        flock(file, LOCK_EX)
        yield file
    finally:
        os.close(file)  # lets go
