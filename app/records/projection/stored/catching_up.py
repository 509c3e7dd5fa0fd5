"""The last part of a rebuild: what was appended while it was at work."""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager

from sqlalchemy import Connection, Engine, select

from app.database import writing_to
from app.records.events import Event
from app.records.ledger.columns import LIGHT, light_event
from app.records.ledger.shared_records import shared_records
from app.records.ledger.tables import record
from app.records.policy import Policy
from app.records.projection.stored.interval_rows import microseconds
from app.records.projection.stored.interval_store import State, person_no, read_state, write_state
from app.records.projection.stored.projecting import moved_on, rewrite_beliefs
from app.records.projection.stored.touching import touched
from app.trade.errors import Refusal

_RECORDS_AT_ONCE = 200


class RebuildOvertaken(Refusal):
    """Another rebuild began after this one."""

    template = "Another rebuild has begun since; this one has stopped."


@contextmanager
def still_ours(engine: Engine, state: State) -> Iterator[Connection]:
    """A writing transaction, if no other rebuild has begun."""
    with writing_to(engine) as connection:
        now = read_state(connection)
        if now is None or now.building != state.building:
            raise RebuildOvertaken
        yield connection


def catch_up(engine: Engine, policy: Policy, state: State) -> int:
    """Take in what was appended in the meantime, then declare the projection to be whole."""
    while True:
        with still_ours(engine, state) as connection:
            events = _next_after(connection, state.through_seq)
            state = _taken_in(connection, policy, state, events)
            is_whole = len(events) < _RECORDS_AT_ONCE
            write_state(connection, state._replace(building="") if is_whole else state)
        if is_whole:
            return state.through_seq


def _next_after(connection: Connection, seq: int) -> list[Event]:
    columns = [record.c[name] for name in LIGHT]
    wanted = select(*columns).where(record.c.seq > seq).order_by(record.c.seq)
    rows = connection.execute(wanted.limit(_RECORDS_AT_ONCE)).mappings()
    return [light_event(row) for row in rows]


def _taken_in(
    connection: Connection, policy: Policy, state: State, events: Iterable[Event]
) -> State:
    """Whoever these records touch is worked out anew."""
    shared = shared_records(connection)
    people: set[str] = set()
    for event in events:
        at = microseconds(event.recorded_at)
        state = moved_on(state, state.through_seq + 1, at)
        if event.person:
            person_no(connection, event.person, at)
        people |= touched(connection, shared, policy, event).keys()
    for person in people:
        rewrite_beliefs(connection, shared, policy, person)
    return state
