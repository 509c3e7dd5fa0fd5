"""The records that bear on everybody: authorisations, revisions, merges, and what counters them.

They are few and asked for at every append, so each process keeps them in memory. The hash of the
newest of them tells whether that memory is still right: it binds all records before it.
"""

from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass

from sqlalchemy import Connection, select

from app.driver import fetched
from app.records.events import (
    ContentRevised,
    CounterEntry,
    Event,
    IdentityMerged,
    TrainerAuthorised,
    TrainerWithdrawn,
)
from app.records.ledger.columns import LIGHT, light_event
from app.records.ledger.tables import IS_SHARED, record

_NEWEST = "SELECT seq, hash FROM record WHERE is_shared = 1 ORDER BY seq DESC LIMIT 1"
_ALL = select(*(record.c[name] for name in LIGHT)).where(IS_SHARED)
_IN_ORDER = _ALL.order_by(record.c.seq)


@dataclass(frozen=True, slots=True)
class SharedRecords:
    """All of them by whom they are about.

    stamp: place and hash of the newest; groups: id -> all ids ever merged with it, for ids merged
    at all; about: id -> records about it or an id merged with it; "" -> those about nobody;
    steering: the revisions and merges, and what counters any of the shared records.
    """

    stamp: tuple[int, bytes]
    groups: Mapping[str, frozenset[str]]
    about: Mapping[str, Sequence[Event]]
    steering: Sequence[Event]

    def ids_of(self, person: str) -> frozenset[str]:
        """All ids that are or were taken for this person's, their own included."""
        return self.groups.get(person, frozenset((person,)))

    def all_about(self, person: str) -> Sequence[Event]:
        """Those about a person, or about an id merged with theirs."""
        return self.about.get(min(self.ids_of(person)), ())

    def bearing_on(self, people: Mapping[str, Set[str]]) -> list[Event]:
        """Those about any of these people and those about nobody; each once.

        people: id -> the qualifications in which it matters whether they may sign.
        """
        found = {event.id: event for event in self.about.get("", ())}
        for person, names in people.items():
            for event in self.all_about(person):
                if event.kind not in _AUTHORISATIONS or event.qualification in names:
                    found[event.id] = event
        return list(found.values())


_AUTHORISATIONS = (TrainerAuthorised.kind, TrainerWithdrawn.kind)
_kept = SharedRecords((0, b""), {}, {}, ())


def shared_records(connection: Connection) -> SharedRecords:
    """The shared records as they are in this transaction."""
    global _kept  # the memory of this process; replaced as a whole, so that threads may share it
    newest = fetched(connection, _NEWEST)
    stamp = (newest[0][0], bytes(newest[0][1])) if newest else (0, b"")
    kept = _kept
    if kept.stamp != stamp:
        rows = connection.execute(_IN_ORDER).mappings()
        kept = _kept = sorted_out(stamp, [light_event(row) for row in rows])
    return kept


def sorted_out(stamp: tuple[int, bytes], events: Iterable[Event]) -> SharedRecords:
    """Sort shared records by whom they are about."""
    every = list(events)
    groups: dict[str, frozenset[str]] = {}
    for event in every:
        if isinstance(event, IdentityMerged):
            ends = (event.person, event.merged)
            both = frozenset().union(*(groups.get(end, frozenset((end,))) for end in ends))
            groups.update(dict.fromkeys(both, both))
    about: dict[str, list[Event]] = {}
    for event in every:
        key = min(groups.get(event.person, (event.person,)))
        about.setdefault(key, []).append(event)
    kinds = ContentRevised | IdentityMerged | CounterEntry
    return SharedRecords(stamp, groups, about, [e for e in every if isinstance(e, kinds)])
