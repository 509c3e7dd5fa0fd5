"""Statements sent straight to the driver, inside SQLAlchemy's transaction.

SQLAlchemy adds about 60 microseconds to a statement and as much as the query to 50,000 rows. An
append sends a dozen statements and a board fetches 50,000 rows, so these few go the short way.
Texts are written with ? for values and hold nothing else that differs between the databases.
"""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Any

from sqlalchemy import Connection

Values = Sequence[int | str | bytes | None]


def fetched(connection: Connection, text: str, values: Values = ()) -> list[Any]:
    """All rows of a query, as plain tuples."""
    cursor = _cursor(connection)
    try:
        cursor.execute(_in_style(text, connection.dialect.paramstyle), values)
        rows: list[Any] = cursor.fetchall()
    finally:
        cursor.close()
    return rows


def sent(connection: Connection, text: str, values: Values = ()) -> int:
    """Send a statement that changes something; return how many rows it changed."""
    cursor = _cursor(connection)
    try:
        cursor.execute(_in_style(text, connection.dialect.paramstyle), values)
        return int(cursor.rowcount)
    finally:
        cursor.close()


def sent_many(connection: Connection, text: str, values: Iterable[Values]) -> None:
    """Send the same statement with each of these values."""
    cursor = _cursor(connection)
    try:
        cursor.executemany(_in_style(text, connection.dialect.paramstyle), values)
    finally:
        cursor.close()


def _cursor(connection: Connection) -> Any:
    if not connection.in_transaction():
        connection.begin()
    raw: Any = connection.connection
    return raw.cursor()


@lru_cache(maxsize=256)
def _in_style(text: str, style: str) -> str:
    return text if style == "qmark" else text.replace("?", "%s")
