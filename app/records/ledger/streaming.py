"""Going through the stored records at the speed of the database, whichever it is."""

from collections.abc import Iterator
from typing import Any

from sqlalchemy import Connection

# The driver's own rows: a row object of SQLAlchemy costs as much again as its bytes' hash.
_SPAN = "SELECT seq, body, hash FROM record WHERE seq BETWEEN {0} AND {0} ORDER BY seq"
_AT_ONCE = 2000


def stored_rows(
    connection: Connection, first: int, last: int
) -> Iterator[tuple[int, bytes, bytes]]:
    """Seq, canonical bytes and hash of the records from first to last, in order."""
    raw: Any = connection.connection
    if connection.dialect.name == "postgresql":
        # A cursor on the server; without one the driver would fetch all rows into memory.
        with raw.cursor("stored_rows") as cursor:
            cursor.itersize = _AT_ONCE
            yield from cursor.execute(_SPAN.format("%s"), (first, last))
    else:
        yield from raw.cursor().execute(_SPAN.format("?"), (first, last))
