"""Reading which proposed corrections are still open."""

import json

from sqlalchemy import Connection, select

from app.records.events import CorrectionProposed, CounterEntry, Event, IdentityMerged
from app.records.ledger.encoding import event_of
from app.records.ledger.tables import IS_PROPOSAL, record
from app.records.standing.settling import settle


def open_proposals(connection: Connection) -> list[CorrectionProposed]:
    """Every proposal that was neither confirmed nor withdrawn, the oldest first."""
    wanted = select(record.c.seq, record.c.body).where(IS_PROPOSAL).order_by(record.c.seq)
    found = [event_of(json.loads(row.body)) for row in connection.execute(wanted)]
    proposals = [event for event in found if isinstance(event, CorrectionProposed)]
    return [event for event in proposals if not is_closed(connection, event)]


def is_closed(connection: Connection, proposal: CorrectionProposed, but: str = "") -> bool:
    """Whether a proposal was confirmed, or made void; but: the id of a record left aside."""
    around = [e for e in pointing_to(connection, {proposal.id, proposal.about}) if e.id != but]
    return proposal.id in settle(around).voided or any(
        isinstance(event, CounterEntry | IdentityMerged) and event.proposal == proposal.id
        for event in around
    )


def pointing_to(connection: Connection, ids: set[str]) -> list[Event]:
    """The records that point to these, those that point to them, and so on."""
    found: dict[str, Event] = {}
    new = ids
    while new:
        wanted = select(record.c.body).where(record.c.target.in_(sorted(new)))
        events = (event_of(json.loads(body)) for body in connection.scalars(wanted))
        fresh = {event.id: event for event in events if event.id not in found}
        found |= fresh
        new = set(fresh)
    return list(found.values())
