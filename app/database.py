"""The database handle, how each connection is set up, and the one way to write.

SQLite: WAL, full sync, foreign keys, recursive triggers (without them INSERT OR REPLACE walks
past the append-only triggers). A writing transaction begins IMMEDIATE, because a deferred one
that reads before it writes fails at once when another writer is ahead of it. A lock in front of
it keeps the writers of this process in a fair queue.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from threading import Lock
from typing import Any

from flask_sqlalchemy import SQLAlchemy
from sqlalchemy import Connection, Engine, event

db = SQLAlchemy()

_writers = Lock()

_PRAGMAS = (
    "PRAGMA journal_mode=WAL",
    "PRAGMA synchronous=FULL",
    "PRAGMA busy_timeout=5000",
    "PRAGMA foreign_keys=ON",
    "PRAGMA recursive_triggers=ON",
)


def prepare_engine(engine: Engine) -> None:
    """Set pragmas on each new SQLite connection and let SQLAlchemy alone begin transactions."""
    if engine.dialect.name != "sqlite":
        return

    @event.listens_for(engine, "connect")
    def on_connect(raw: Any, _record: Any) -> None:
        raw.isolation_level = None
        for pragma in _PRAGMAS:
            raw.execute(pragma)

    @event.listens_for(engine, "begin")
    def on_begin(connection: Connection) -> None:
        is_writing = connection.get_execution_options().get("is_writing", False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if is_writing else "BEGIN")


@contextmanager
def reading() -> Iterator[Connection]:
    """Yield a connection that sees one state of the database from its first query on."""
    with db.engine.connect() as connection:
        yield connection


@contextmanager
def writing() -> Iterator[Connection]:
    """Yield a connection inside the writing transaction: all of it is kept, or none."""
    with _writers, db.engine.connect() as connection:
        with connection.execution_options(is_writing=True).begin():
            yield connection
