"""What was known when: all intervals a person's standings ever had, each with its time of belief.

PURE. The records are taken in by their time of arrival. After each arrival only the timelines it
bears on are worked out again, from its day on; a merge, or a counter-entry on anything but a
record of the person's own, settles everything anew. A test compares the outcome with judge() for
random days and times.
"""

from bisect import insort
from collections.abc import Callable, Iterable, Iterator
from datetime import UTC, date, datetime
from typing import Any, NamedTuple

from app.records.events import (
    KINDS,
    ContentRevised,
    CounterEntry,
    Countersign,
    Decided,
    Event,
    Quiz,
    TrainerAuthorised,
    TrainerWithdrawn,
    Training,
    Watched,
    WorkerCountersign,
    in_order,
)
from app.records.policy import Policy
from app.records.projection.pure.intervals import Interval
from app.records.projection.pure.timeline import Timeline
from app.records.standing.settling import settle

Own = Training | Quiz | Watched | Decided


class Version(NamedTuple):
    """An interval of a qualification as believed from one instant until before another (None: now).

    recorded_from, recorded_to: UTC times of arrival of the records that made and ended the belief.
    """

    qualification: str
    interval: Interval
    recorded_from: datetime
    recorded_to: datetime | None


def versions_of(events: Iterable[Event], policy: Policy, person: str) -> list[Version]:
    """Every interval a person's standings had, as known at any time.

    events: the person's records and the shared ones that bear on them, in any order, each id once
    (as the ledger keeps them). Returns Versions. Source: assessment section 5.
    Example: ``[v for v in versions_of(history, policy, "W") if v.recorded_to is None]``.
    """
    return list(_Beliefs(policy, person).through(events))


class _Beliefs:
    """What is believed about one person while the records arrive one after another."""

    def __init__(self, policy: Policy, person: str) -> None:
        self._policy = policy
        self._person = person
        self._settled = settle(())
        self._known: list[Event] = []
        self._own: dict[str, Event] = {}
        self._timelines: dict[str, Timeline] = {}
        self._open: dict[str, list[tuple[Interval, datetime]]] = {}
        self._touched: dict[str, date] = {}

    def through(self, events: Iterable[Event]) -> Iterator[Version]:
        moment = datetime.min.replace(tzinfo=UTC)
        for event in sorted(events, key=_arrival):
            if event.recorded_at > moment:
                yield from self._changes(moment)
                moment = event.recorded_at
            self._known.append(event)
            if not _TAKING.get(type(event), _Beliefs._take_other)(self, event):
                self._settle_anew()
        yield from self._changes(moment)
        for name, intervals in self._open.items():
            for interval, began in intervals:
                yield Version(name, interval, began, None)

    def _changes(self, moment: datetime) -> Iterator[Version]:
        """End the beliefs that no longer hold since a moment's records, begin the new ones."""
        for name, since in self._touched.items():
            timeline, believed = self._timelines[name], self._open.setdefault(name, [])
            kept = timeline.work_out(since)
            before = dict(believed[kept:])
            after = timeline.intervals[kept:]
            believed[kept:] = [(interval, before.pop(interval, moment)) for interval in after]
            for interval, began in before.items():
                yield Version(name, interval, began, moment)
        self._touched.clear()

    # Each of these takes a record in where it lies, and says no if that may change what other
    # records mean.

    def _take_own(self, event: Event) -> bool:
        who = self._settled.who(event.person)
        insort(self._settled.by_person.setdefault(who, []), event, key=in_order)
        if who != self._settled.who(self._person):
            return True
        self._own[event.id] = event
        if event.id in self._settled.voided:
            return True
        if isinstance(event, Watched | Decided):
            if event.qualification not in self._timelines:
                self._begin(event.qualification)
                return True
            self._take_into(event.qualification, event)
        else:
            for name in self._timelines:
                self._take_into(name, event)
        return True

    def _take_into(self, name: str, event: Event) -> None:
        if self._timelines[name].take(event):
            self._touch(name, event.occurred_on)

    def _take_authorisation(self, event: Event) -> bool:
        settled = self._settled
        if event.id not in settled.voided:
            key = (settled.who(event.person), event.qualification)
            settled.authorisations.setdefault(key, []).append(event)
            # A countersign may be dated later than the job it vouches for.
            since = date.min if settled.countersigns else event.occurred_on
            self._touch(event.qualification, since)
        return True

    def _take_revision(self, event: ContentRevised) -> bool:
        if event.id not in self._settled.voided:
            own = self._settled.revisions.setdefault(event.module, [])
            insort(own, event, key=in_order)
            for name in self._timelines:
                if event.module in self._policy.rule(name).modules:
                    self._touch(name, event.occurred_on)
        return True

    def _take_countersign(self, event: Countersign) -> bool:
        if event.id not in self._settled.voided:
            self._settled.countersigns.setdefault(event.target, []).append(event)
            if isinstance(target := self._own.get(event.target), Watched):
                self._touch(target.qualification, target.occurred_on)
        return True

    def _take_worker_countersign(self, event: WorkerCountersign) -> bool:
        if event.id not in self._settled.voided:
            self._settled.worker_countersigns.setdefault(event.target, []).append(event)
            if isinstance(target := self._own.get(event.target), Watched):
                self._touch(target.qualification, target.occurred_on)
        return True

    def _take_counter_entry(self, event: CounterEntry) -> bool:
        target = self._own.get(event.target)
        if event.id in self._settled.voided:
            return True
        if target is None:
            return False
        if target.id not in self._settled.voided:
            self._settled.voided[target.id] = event.id
            for name, timeline in self._timelines.items():
                if timeline.drop(target):
                    self._touch(name, target.occurred_on)
        return True

    def _take_other(self, event: Event) -> bool:
        return event.id in self._settled.voided

    def _touch(self, name: str, since: date) -> None:
        if name in self._timelines and self._timelines[name].reaches(since):
            self._touched[name] = min(since, self._touched.get(name, since))

    def _begin(self, name: str) -> None:
        if name in self._policy.qualifications:
            rule = self._policy.rule(name)
            self._timelines[name] = Timeline(self._settled, rule, self._person)
            self._touched[name] = date.min

    def _settle_anew(self) -> None:
        self._settled = settle(self._known)
        own = self._settled.by_person.get(self._settled.who(self._person), [])
        self._own = {event.id: event for event in own if isinstance(event, Own)}
        names = {e.qualification for e in own if isinstance(e, Watched | Decided)}
        for name in names | self._timelines.keys():
            self._begin(name)


_TAKING: dict[type[Event], Callable[[_Beliefs, Any], bool]] = {
    **{kind: _Beliefs._take_own for kind in KINDS.values() if issubclass(kind, Own)},
    TrainerAuthorised: _Beliefs._take_authorisation,
    TrainerWithdrawn: _Beliefs._take_authorisation,
    ContentRevised: _Beliefs._take_revision,
    Countersign: _Beliefs._take_countersign,
    WorkerCountersign: _Beliefs._take_worker_countersign,
    CounterEntry: _Beliefs._take_counter_entry,
}


def _arrival(event: Event) -> tuple[datetime, str]:
    return event.recorded_at, event.id
