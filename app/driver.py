"""Statements sent straight to the driver, inside SQLAlchemy's transaction.

SQLAlchemy adds about 60 microseconds to a statement and as much as the query to 50,000 rows. An
append sends a dozen statements, a board fetches 50,000 rows, and every page asks a few questions,
so these few go the short way.
Texts are written with ? for values and hold nothing else that differs between the databases.
"""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Any

from sqlalchemy import Connection

Values = Sequence[int | str | bytes | None]


def fetched(connection: Connection, text: str, values: Values = ()) -> list[Any]:
    """All rows of a query, as plain tuples."""
    rows: list[Any] = _executed(connection, text, values).fetchall()
    return rows


def sent(connection: Connection, text: str, values: Values = ()) -> int:
    """Send a statement that changes something; return how many rows it changed."""
    return int(_executed(connection, text, values).rowcount)


def sent_many(connection: Connection, text: str, values: Iterable[Values]) -> None:
    """Send the same statement with each of these values."""
    cursor = _raw(connection).cursor()
    try:
        cursor.executemany(_in_style(text, connection.dialect.paramstyle), values)
    finally:
        cursor.close()


def _executed(connection: Connection, text: str, values: Values) -> Any:
    """A cursor after the statement; both drivers make it of the connection itself."""
    return _raw(connection).execute(_in_style(text, connection.dialect.paramstyle), values)


def _raw(connection: Connection) -> Any:
    if not connection.in_transaction():
        connection.begin()
    return connection.connection.driver_connection


@lru_cache(maxsize=256)
def _in_style(text: str, style: str) -> str:
    return text if style == "qmark" else text.replace("?", "%s")
