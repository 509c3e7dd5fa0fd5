"""How many records were known on a day; every answer of a board says it."""

from datetime import date, datetime

from sqlalchemy import Connection, func, select

from app.driver import fetched
from app.records.days import end_of_knowledge
from app.records.ledger.encoding import stamp
from app.records.ledger.tables import record
from app.records.projection.pure.lanes import STILL_KNOWN
from app.records.projection.stored.interval_rows import microseconds
from app.records.projection.stored.interval_store import State

_AT = "SELECT recorded_at FROM record WHERE seq = ?"


def instant(known_on: date | datetime | None) -> int:
    """Microseconds since 1970 of the last instant that counts as known; None: after all."""
    return STILL_KNOWN - 1 if known_on is None else microseconds(end_of_knowledge(known_on))


def count_known(connection: Connection, known_on: date | datetime | None) -> int:
    """How many records were known, counted one by one."""
    wanted = select(func.count()).select_from(record)
    if known_on is not None:
        wanted = wanted.where(record.c.recorded_at <= stamp(end_of_knowledge(known_on)))
    return connection.scalar(wanted) or 0


def records_known(connection: Connection, state: State, known_on: date | datetime | None) -> int:
    """The same from the projection's state.

    Records are numbered as they arrive, so the last one known is found by halving; where one came
    with an earlier time than one before it, they have to be counted.
    """
    if known_on is None:
        return state.through_seq
    if not state.is_in_order:
        return count_known(connection, known_on)
    until = stamp(end_of_knowledge(known_on))
    low, high = 0, state.through_seq
    while low < high:
        middle = (low + high + 1) // 2
        ((at,),) = fetched(connection, _AT, (middle,))
        low, high = (middle, high) if at <= until else (low, middle - 1)
    return low
