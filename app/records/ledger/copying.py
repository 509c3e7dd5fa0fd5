"""Copying everything into an empty database of the same migration, on SQLite or PostgreSQL."""

from collections.abc import Iterable, Iterator
from typing import Any

from sqlalchemy import Connection, Table, func, insert, inspect, select, text

from app.records.proof.checkpoint import newest
from app.records.proof.verifying import verify
from app.trade.errors import Refusal

_AT_ONCE = 1000


class NotMigrated(Refusal):
    """The two databases do not have the same tables."""

    template = (
        "The new database is at migration {there}, this one at {here}. "
        "Bring both up to date first: lowport database upgrade."
    )


class NotEmpty(Refusal):
    """The new database holds something already."""

    template = "The new database is not empty: there are rows in {table}. Nothing was copied."


class CopyDiffers(Refusal):
    """The records did not arrive as they were."""

    template = "Nothing was copied: {reason}"


def copy_everything(source: Connection, target: Connection, tables: Iterable[Table]) -> int:
    """Copy the tables, in this order; return the number of rows.

    target must be inside its writing transaction: what is raised here undoes all of it. Raises
    NotMigrated, NotEmpty, CopyDiffers.
    """
    wanted = list(tables)
    _refuse_other_migration(source, target)
    for table in wanted:
        if target.execute(select(table).limit(1)).first() is not None:
            raise NotEmpty(table=table.name)
    rows = sum(_copy(source, target, table) for table in wanted)
    _refuse_other_records(source, target)
    return rows


def _refuse_other_migration(source: Connection, target: Connection) -> None:
    here, there = _migration(source), _migration(target)
    if here != there:
        raise NotMigrated(here=here or "none", there=there or "none")


def _migration(connection: Connection) -> str | None:
    if not inspect(connection).has_table("alembic_version"):
        return None
    found: str | None = connection.scalar(text("SELECT version_num FROM alembic_version"))
    return found


def _copy(source: Connection, target: Connection, table: Table) -> int:
    count = 0
    for rows in _batches(source, table):
        target.execute(insert(table), rows)
        count += len(rows)
    _move_counter_on(target, table)
    return count


def _batches(source: Connection, table: Table) -> Iterator[list[dict[str, Any]]]:
    # In the order of the key: records are let in only one after the other.
    wanted = select(table).order_by(*table.primary_key.columns)
    rows = source.execute(wanted.execution_options(yield_per=_AT_ONCE)).mappings()
    for part in rows.partitions():
        yield [dict(row) for row in part]


def _move_counter_on(target: Connection, table: Table) -> None:
    """PostgreSQL counts by itself where it gives out ids; rows with ids do not move it on."""
    column = table.autoincrement_column
    if target.dialect.name == "postgresql" and column is not None:
        newest_id = select(func.max(column)).scalar_subquery()
        counter = func.pg_get_serial_sequence(table.name, column.name)
        target.execute(select(func.setval(counter, newest_id)))


def _refuse_other_records(source: Connection, target: Connection) -> None:
    """Both ends are hashed anew from their bytes, and their roots compared."""
    for connection in (source, target):
        wrong = verify(connection).wrong
        if wrong is not None:
            raise CopyDiffers(reason=f"record {wrong.seq} ({wrong.id}) is wrong: {wrong.sentence}")
    if newest(source) != newest(target):
        raise CopyDiffers(reason="the two databases have not the same root.")
