"""The projection made anew from all records, while others go on reading and appending.

The records are read a part of the people at a time. The rows are sorted in a file of their own
before they go into the table, in steps short enough that nobody waits long to write. What was
appended in the meantime is taken in last, see catching_up.py. Until then, and if this stops
half-way, boards are worked out from the records.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from typing import NamedTuple

from sqlalchemy import Connection, Engine, delete, insert, select

from app.database import empty_write_ahead_log, reading_from, writing_to
from app.ids import new_id
from app.records.ledger.shared_records import shared_records
from app.records.ledger.tables import record
from app.records.policy import Policy
from app.records.projection.stored.catching_up import catch_up, still_ours
from app.records.projection.stored.interval_rows import microseconds
from app.records.projection.stored.interval_store import (
    State,
    add_rows,
    write_qualifications,
    write_state,
)
from app.records.projection.stored.interval_tables import (
    TABLES,
    standing_interval,
    standing_person,
    standing_trained,
)
from app.records.projection.stored.projection_policy import fingerprint, policy_text
from app.records.projection.stored.row_sorter import RowSorter
from app.records.projection.stored.working_out import Part, renumbered, work_out_parts


def _say_nothing(_what: str, _more: int, _all: int) -> None:
    pass


# Called with what is being done, how much more of it is done, and how much there is.
Tell = Callable[[str, int, int], None]
_ROWS_AT_ONCE = 100_000
_PEOPLE_AT_ONCE = 100
FEWEST_TO_SHARE = 50_000  # records; below, another process costs more than it saves


class Rebuilt(NamedTuple):
    """How many records went in, how many rows came out."""

    records: int
    rows: int


def rebuild(
    engine: Engine, policy: Policy, tell: Tell = _say_nothing, processes: int = 1
) -> Rebuilt:
    """Make the projection anew. engine: prepared; tell: for a progress bar.

    processes: more than one only from a program with a single thread. Raises RebuildOvertaken.
    """
    state = _begin(engine, policy)
    trained: dict[tuple[int, str], int] = {}
    with RowSorter() as sorter:
        with reading_from(engine) as connection:
            state = _as_read(connection, state)
            people, known_from = _people(connection), list[int]()
            several = processes if state.through_seq >= FEWEST_TO_SHARE else 1
            parts = _parts(people)
            for part in work_out_parts(connection, policy, parts, several):
                sorter.add(renumbered(part, trained))
                known_from += part.known_from
                tell("work-out", part.records, state.through_seq)
        rows = _write(engine, state, sorter, tell)
    with still_ours(engine, state) as connection:
        _write_numbers(connection, zip(people, known_from, strict=True), trained)
        write_state(connection, state)
    records = catch_up(engine, policy, state)
    empty_write_ahead_log(engine)
    return Rebuilt(records, rows)


def _people(connection: Connection) -> list[str]:
    """Everybody any record is about, in the database's order.

    After them the ids that only stand in a merge: from then on they have standings too.
    """
    person = record.c.person
    known = list(connection.scalars(select(person).where(person != "").distinct().order_by(person)))
    return [*known, *sorted(shared_records(connection).groups.keys() - set(known))]


def _parts(people: Sequence[str]) -> Iterator[Part]:
    for start in range(0, len(people), _PEOPLE_AT_ONCE):
        yield Part(start + 1, tuple(people[start : start + _PEOPLE_AT_ONCE]))


def _write(engine: Engine, state: State, sorter: RowSorter, tell: Tell) -> int:
    """Put the rows into the table, and the second index after them, which is much quicker."""
    rows = len(sorter)
    indexes = standing_interval.indexes if engine.dialect.name == "sqlite" else ()
    with still_ours(engine, state) as connection:
        for index in indexes:
            index.drop(connection, checkfirst=True)
    for part in sorter.parts(_ROWS_AT_ONCE):
        with still_ours(engine, state) as connection:
            add_rows(connection, part)
        tell("write", len(part), rows)
    with still_ours(engine, state) as connection:
        for index in indexes:
            index.create(connection, checkfirst=True)
    return rows


def _begin(engine: Engine, policy: Policy) -> State:
    """Declare that a rebuild is at work, and clear the tables."""
    state = State(1, policy_text(policy), fingerprint(policy), new_id(), 0, 0, 1)
    with writing_to(engine) as connection:
        for table in TABLES:
            connection.execute(delete(table))
        write_qualifications(connection, policy.qualifications)
        write_state(connection, state)
    return state


def _as_read(connection: Connection, state: State) -> State:
    """The state after all records that there are in this transaction."""
    arrivals = select(record.c.recorded_at).order_by(record.c.seq)
    count, latest, is_in_order = 0, "", 1
    for (at,) in connection.execute(arrivals.execution_options(yield_per=10_000)):
        count += 1
        if at < latest:
            is_in_order = 0
        latest = max(at, latest)
    at_us = microseconds(datetime.fromisoformat(latest)) if latest else 0
    return state._replace(through_seq=count, latest_at=at_us, is_in_order=is_in_order)


def _write_numbers(
    connection: Connection,
    people: Iterable[tuple[str, int]],
    trained: Mapping[tuple[int, str], int],
) -> None:
    known = [
        {"no": place + 1, "person": person, "known_from": since}
        for place, (person, since) in enumerate(people)
    ]
    numbers = [
        {"no": no, "qualification_no": qualification_no, "revisions": text}
        for (qualification_no, text), no in trained.items()
    ]
    if known:
        connection.execute(insert(standing_person), known)
    if numbers:
        connection.execute(insert(standing_trained), numbers)
