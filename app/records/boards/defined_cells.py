"""The cells of a board worked out by the definition itself, from the records."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import Connection

from app.records.boards.board_cells import Cell, cell_of
from app.records.events import Event
from app.records.ledger.bearing import events_bearing_on
from app.records.ledger.door import light_events
from app.records.ledger.shared_records import shared_records
from app.records.policy import Policy
from app.records.standing.definition import judge
from app.records.standing.settling import Settled, settle


@dataclass(frozen=True, slots=True)
class DefinedCells:
    """Cells by judge(), each when asked for. on_record: people with a known record, see Cells."""

    events: list[Event]
    settled: Settled
    policy: Policy
    as_of: date
    on_record: frozenset[str]

    def cells_of(self, person: str) -> Iterator[Cell]:
        """All cells of a person."""
        for rule in self.policy.qualifications.values():
            yield cell_of(judge(self.settled, rule, person, self.as_of))


def defined_cells(
    connection: Connection,
    policy: Policy,
    as_of: date,
    known_on: date | datetime | None,
    people: Collection[str] | None,
) -> DefinedCells:
    """Settle the records of everybody, or of these people, as known on a day."""
    if people is None:
        events = list(light_events(connection, known_on))
    else:
        events = _about(connection, people)
    settled = settle(events, known_on)
    ids = {event.person for event in events} | settled.same.keys()
    on_record = frozenset(p for p in ids if p and settled.who(p) in settled.by_person)
    return DefinedCells(events, settled, policy, as_of, on_record)


def _about(connection: Connection, people: Collection[str]) -> list[Event]:
    shared = shared_records(connection)
    found = {event.id: event for event in shared.steering}
    for person in people:
        bearing = events_bearing_on(connection, shared, person)
        found |= {event.id: event for event in (*bearing, *shared.all_about(person))}
    return list(found.values())
