"""Rules 1 to 3: which records are known, which of them are void, who is the same person."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from app.records.days import end_of_knowledge
from app.records.events import (
    ContentRevised,
    CounterEntry,
    Countersign,
    Event,
    IdentityMerged,
    TrainerAuthorised,
    TrainerWithdrawn,
    WorkerCountersign,
    in_order,
)
from app.records.ledger.resending import without_arrival
from app.trade.errors import Refusal


class ContentConflict(Refusal):
    """Two records with one id and different content."""

    template = "Two different records have the id {id}."


@dataclass(frozen=True, slots=True)
class Settled:
    """The known records, sorted out. Built by settle(); asked by counting, grants and clocks.

    by_person: every known record, void ones included, by the one person they are about;
    voided: void record id -> counter-entry id; the rest holds records in force only.
    """

    by_person: dict[str, list[Event]]
    voided: dict[str, str]
    same: dict[str, str]
    authorisations: dict[tuple[str, str], list[Event]]
    revisions: dict[str, list[ContentRevised]]
    countersigns: dict[str, list[Countersign]]
    worker_countersigns: dict[str, list[WorkerCountersign]]

    def who(self, person: str) -> str:
        """One id for all ids of a person, so that merged people compare equal."""
        return self.same.get(person, person)

    def about(self, person: str, as_of: date) -> list[Event]:
        """The person's records in force with a day up to as_of, in order."""
        return [
            event
            for event in self.by_person.get(self.who(person), ())
            if event.occurred_on <= as_of and event.id not in self.voided
        ]

    def may_sign(self, trainer: str, qualification: str, on: date) -> bool:
        """Whether the trainer was authorised for the qualification on that day."""
        return self.authorised_by(trainer, qualification, on) is not None

    def authorised_by(self, trainer: str, qualification: str, on: date) -> TrainerAuthorised | None:
        """The record by which the trainer might sign for the qualification on that day."""
        entries = self.authorisations.get((self.who(trainer), qualification), ())
        past = [event for event in entries if event.occurred_on <= on]
        newest = last_word(past, TrainerWithdrawn)
        return newest if isinstance(newest, TrainerAuthorised) else None


def settle(events: Iterable[Event], known_on: date | datetime | None = None) -> Settled:
    """Sort the records out as they were known on a day (None: everything).

    events: in any order, sent any number of times. Returns a Settled. Raises ContentConflict.
    Source: assessment rules 1 to 3. Example: ``settle(history, date(2024, 3, 15))``.
    """
    known = _first_of_each(events, known_on)
    voided = _voided(known)
    live = [event for event in known if event.id not in voided]
    same = _same_people(live)
    settled = Settled({}, voided, same, {}, {}, {}, {})
    for event in known:
        if event.person:
            settled.by_person.setdefault(settled.who(event.person), []).append(event)
    for event in live:
        _file(settled, event)
    return settled


def _file(settled: Settled, event: Event) -> None:
    if isinstance(event, ContentRevised):
        settled.revisions.setdefault(event.module, []).append(event)
    elif isinstance(event, Countersign):
        settled.countersigns.setdefault(event.target, []).append(event)
    elif isinstance(event, WorkerCountersign):
        settled.worker_countersigns.setdefault(event.target, []).append(event)
    elif isinstance(event, TrainerAuthorised | TrainerWithdrawn):
        key = (settled.who(event.person), event.qualification)
        settled.authorisations.setdefault(key, []).append(event)


def _first_of_each(events: Iterable[Event], known_on: date | datetime | None) -> list[Event]:
    end = None if known_on is None else end_of_knowledge(known_on)
    first: dict[str, Event] = {}
    for event in events:
        if end is not None and event.recorded_at > end:
            continue
        other = first.setdefault(event.id, event)
        if other is event:
            continue
        if without_arrival(other) != without_arrival(event) or other.kind != event.kind:
            raise ContentConflict(id=event.id)
        if event.recorded_at < other.recorded_at:
            first[event.id] = event
    return sorted(first.values(), key=in_order)


def _voided(known: Sequence[Event]) -> dict[str, str]:
    """From newest to oldest, a counter-entry that is not itself void makes its target void."""
    entries = {event.id: event for event in known if isinstance(event, CounterEntry)}

    def depth(entry: CounterEntry) -> int:
        # Two recorded in the same instant: the one that counters the other is the newer.
        seen: set[str] = set()
        while entry.target in entries and entry.id not in seen:
            seen.add(entry.id)
            entry = entries[entry.target]
        return len(seen)

    newest_first = sorted(
        entries.values(), key=lambda e: (e.recorded_at, depth(e), e.id), reverse=True
    )
    voided: dict[str, str] = {}
    for entry in newest_first:
        if entry.id not in voided:
            voided.setdefault(entry.target, entry.id)
    return voided


def _same_people(live: Sequence[Event]) -> dict[str, str]:
    """person id -> the one id that stands for all of theirs; only for people merged at all."""
    groups: dict[str, set[str]] = {}
    for event in live:
        if isinstance(event, IdentityMerged):
            both = groups.get(event.person, {event.person}) | groups.get(
                event.merged, {event.merged}
            )
            groups.update(dict.fromkeys(both, both))
    return {person: min(group) for person, group in groups.items()}


def revision_needed(settled: Settled, module: str, on: date) -> ContentRevised | None:
    """The newest major revision of a module in force on a day; None before the first.

    Training at any revision from this one on is good: editorial changes ask for nothing.
    Source: assessment rules 6 and 9.
    """
    majors = majors_by(settled, module, on)
    return max(majors, key=lambda event: event.revision, default=None)


def majors_by(settled: Settled, module: str, on: date) -> list[ContentRevised]:
    """The major revisions of a module dated up to a day, in order."""
    entries = settled.revisions.get(module, ())
    return [e for e in entries if e.change == "major" and e.occurred_on <= on]


def last_word(events: Sequence[Event], stronger: type[Event]) -> Event | None:
    """The record that decides: the latest day, then the latest arrival; None of none.

    Of two that are equal in both, the one of the stronger kind, so that the order of sending
    never matters. Example: ``last_word(suspensions_and_lifts, Lift)``.
    """
    return max(
        events,
        key=lambda e: (e.occurred_on, e.recorded_at, isinstance(e, stronger), e.id),
        default=None,
    )
