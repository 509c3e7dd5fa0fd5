"""Sorting more rows than memory should hold, in a temporary file that nobody else sees."""

import sqlite3
from collections.abc import Iterator, Sequence
from types import TracebackType

from app.records.projection.stored.interval_rows import IntervalRow, RowValues

_COLUMNS = ",".join(IntervalRow._fields)
_PLACES = ",".join("?" * len(IntervalRow._fields))
_IN_ORDER = ",".join(IntervalRow._fields[:6])  # the primary key of the table


class RowSorter:
    """Takes rows in any order and gives them back in the order of the table."""

    def __init__(self) -> None:
        self._file = sqlite3.connect("")  # a temporary file, gone when it is closed
        self._file.execute("PRAGMA synchronous=OFF")
        self._file.execute("PRAGMA journal_mode=OFF")
        self._file.execute(f"CREATE TABLE row ({_COLUMNS})")

    def __enter__(self) -> "RowSorter":
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._file.close()

    def add(self, rows: Sequence[RowValues]) -> None:
        """Take in some rows."""
        self._file.executemany(f"INSERT INTO row VALUES ({_PLACES})", rows)

    def __len__(self) -> int:
        (count,) = self._file.execute("SELECT count(*) FROM row").fetchone()
        return int(count)

    def parts(self, size: int) -> Iterator[list[RowValues]]:
        """All rows in order, so many at a time."""
        found = self._file.execute(f"SELECT * FROM row ORDER BY {_IN_ORDER}")
        while part := found.fetchmany(size):
            yield part
