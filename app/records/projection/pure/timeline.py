"""The intervals of one person's qualification, worked out from settled records in one walk.

PURE. The rules themselves are those of counting.py, grants.py and clocks.py; this only goes through
the days on which something happened, in order, and keeps the state at the end of each.
"""

from bisect import bisect_left, insort
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, timedelta
from functools import lru_cache
from typing import NamedTuple

from app.records.days import add_months
from app.records.events import (
    Decided,
    Event,
    Grant,
    Lift,
    Practical,
    Quiz,
    Revoke,
    Suspend,
    Training,
    Use,
    Watched,
    in_order,
)
from app.records.policy import QualificationPolicy
from app.records.projection.pure.intervals import BLANK, Facts, Held, Interval
from app.records.standing.clocks import continuity, validity
from app.records.standing.counting import Counted, faults
from app.records.standing.grants import Asked, Judged, support
from app.records.standing.settling import Settled, last_word

_DAY = timedelta(days=1)
_later = lru_cache(maxsize=16_384)(add_months)  # the same few thousand days again and again


def intervals_of(settled: Settled, rule: QualificationPolicy, person: str) -> list[Interval]:
    """All intervals of a person's qualification, in order; days without one: not qualified.

    settled: as known on some day, see settle(). Returns Intervals that do not overlap. Source:
    assessment section 5. Example: ``intervals_of(settle(history), rule, "W")[-1].facts.held``.
    """
    timeline = Timeline(settled, rule, person)
    timeline.work_out(date.min)
    return timeline.intervals


class _State(NamedTuple):
    """How things stand at the end of a day; counted: how many repairs and jobs counted so far."""

    counted: int
    good: Judged | None
    valid_to: date | None
    due: date | None
    revoked: Event | None
    paused: Event | None
    trained: tuple[int, ...]
    facts: Facts


class Timeline:
    """The states of one person's qualification at the end of each day with a record, in order.

    Follows changes: when a record is taken in or dropped, only the days from its own on have to be
    worked out again. Nothing is worked out before the first work_out(). intervals: in order, as
    last worked out.
    """

    def __init__(self, settled: Settled, rule: QualificationPolicy, person: str) -> None:
        self.intervals: list[Interval] = []
        self._rule = rule
        self._person = person
        self._module = {module: place for place, module in enumerate(rule.modules)}
        self._days: list[date] = []
        self._on: dict[date, list[Event]] = {}
        self._states: list[_State] = []
        self._counted: list[Watched] = []
        self._jobs: set[tuple[str, str]] = set()
        # The same records, but of the person's own only those that can bear on this rule.
        self._own = [event for event in settled.about(person, date.max) if self._supports(event)]
        self._settled = replace(settled, by_person={settled.who(person): self._own})
        for event in self._own:
            self._place(event)

    def reaches(self, day: date) -> bool:
        """Whether anything happened on the day or later."""
        return bool(self._days) and self._days[-1] >= day

    def _supports(self, event: Event) -> bool:
        if isinstance(event, Training | Quiz):
            return event.module in self._module
        return isinstance(event, Watched | Decided) and event.qualification == self._rule.id

    def take(self, event: Event) -> bool:
        """Put a record in force at its place, if it bears on this; then work_out() must follow."""
        if not self._supports(event):
            return False
        insort(self._own, event, key=in_order)
        self._place(event)
        return True

    def drop(self, event: Event) -> bool:
        """Take away a record that has become void; if it was here, work_out() must follow."""
        if not self._supports(event):
            return False
        self._own.remove(event)
        if not isinstance(event, Quiz):
            self._on[event.occurred_on].remove(event)
        return True

    def _place(self, event: Event) -> None:
        """A quiz begins no interval: it only supports a grant."""
        if isinstance(event, Quiz):
            return
        day = event.occurred_on
        if day not in self._on:
            self._on[day] = []
            insort(self._days, day)
        insort(self._on[day], event, key=in_order)

    def work_out(self, since: date) -> int:
        """Work out every state from a day on again; return how many intervals stay as they were."""
        place = bisect_left(self._days, since)
        del self._states[place:]
        state = self._states[-1] if self._states else self._start()
        if len(self._counted) > state.counted:
            del self._counted[state.counted :]
            self._jobs = {(e.kind, e.job) for e in self._counted if e.job}
        kept = self._cut(since)
        for day in self._days[place:]:
            before, state = state, self._after(state, self._on[day])
            self._states.append(state)
            if state.facts != before.facts:
                self._begin(day, before.facts, state.facts)
        return kept

    def _cut(self, since: date) -> int:
        """Take away what was worked out from a day on."""
        found = self.intervals
        while found and found[-1].from_on >= since:
            found.pop()
        if found and (found[-1].to_on is None or found[-1].to_on >= since - _DAY):
            # It may now go on longer than it did.
            found[-1] = found[-1]._replace(to_on=None)
            return len(found) - 1
        return len(found)

    def _begin(self, day: date, before: Facts, facts: Facts) -> None:
        if before != BLANK:
            self.intervals[-1] = self.intervals[-1]._replace(to_on=day - _DAY)
        if facts != BLANK:
            self.intervals.append(Interval(day, None, facts))

    def _start(self) -> _State:
        return _State(0, None, None, None, None, None, (0,) * len(self._module), BLANK)

    def _after(self, before: _State, events: Sequence[Event]) -> _State:
        watched = [event for event in events if isinstance(event, Watched)]
        counted = self._count(watched)
        if len(watched) < len(events):
            return self._after_more(before, events, counted)
        _, good, valid_to, due, revoked, paused, trained, facts = before
        if counted and good is not None:
            due = self._moved(due, counted)
            facts = facts._replace(continuity_due_on=due) if due != before.due else facts
        return _State(len(self._counted), good, valid_to, due, revoked, paused, trained, facts)

    def _after_more(
        self, before: _State, events: Sequence[Event], counted: Sequence[Watched]
    ) -> _State:
        """The state after a day with more than repairs and jobs."""
        good = self._good(events) or before.good
        valid_to, due = before.valid_to, before.due
        if good is not before.good and good is not None:
            valid_to, due = validity(self._rule, good), self._continuity(good)
        elif good is not None:
            due = self._moved(due, counted)
        state = _State(
            counted=len(self._counted),
            good=good,
            valid_to=valid_to,
            due=due,
            revoked=_newest(before.revoked, events, (Revoke,), Revoke),
            paused=_newest(before.paused, events, (Suspend, Lift), Lift),
            trained=self._trained(before.trained, events),
            facts=BLANK,
        )
        return state._replace(facts=_facts(state))

    def _count(self, events: Iterable[Watched]) -> list[Watched]:
        """The repairs and jobs of a day that count (rule 5), in order."""
        found: list[Watched] = []
        for event in events:
            if (event.kind, event.job) in self._jobs:
                continue
            if next(faults(self._settled, self._rule, event), None) is not None:
                continue
            found.append(event)
            if event.job:
                self._jobs.add((event.kind, event.job))
        self._counted += found
        return found

    def _all_counted(self) -> Counted:
        return Counted(
            practicals=tuple(e for e in self._counted if isinstance(e, Practical)),
            uses=tuple(e for e in self._counted if isinstance(e, Use)),
            not_counted=(),
        )

    def _good(self, events: Iterable[Event]) -> Judged | None:
        """The newest grant of the day that stands (rule 6)."""
        grants = [event for event in events if isinstance(event, Grant)]
        for grant in reversed(grants):
            asked = Asked(self._settled, self._rule, self._person, grant.occurred_on, grant.decider)
            judged = Judged(grant, support(asked, self._all_counted()))
            if judged.stands:
                return judged
        return None

    def _continuity(self, good: Judged) -> date | None:
        return continuity(self._rule, good, self._all_counted()).last_good_day

    def _moved(self, due: date | None, counted: Sequence[Watched]) -> date | None:
        """Rule 8: the next due day after the repairs and jobs of one more day."""
        if due is None or self._rule.continuity_months is None or not counted:
            return due
        is_healed = any(isinstance(event, Practical) for event in counted)
        day = counted[0].occurred_on
        return _later(day, self._rule.continuity_months) if is_healed or day <= due else due

    def _trained(self, before: tuple[int, ...], events: Iterable[Event]) -> tuple[int, ...]:
        trained = before
        for event in events:
            if isinstance(event, Training):
                place = self._module[event.module]
                newest = max(trained[place], event.revision)
                trained = (*trained[:place], newest, *trained[place + 1 :])
        return trained


def _facts(state: _State) -> Facts:
    good, against = state.good, _against(state)
    held: Held = "not-qualified" if good is None else "granted"
    if against is not None:
        held = "revoked" if isinstance(against, Revoke) else "suspended"
    return Facts(
        held=held,
        granted_on=good.grant.occurred_on if good else None,
        last_good_day=state.valid_to,
        continuity_due_on=state.due,
        decided_on=against.occurred_on if against else None,
        trained=state.trained if good else (),
    )


def _newest(
    before: Event | None,
    events: Iterable[Event],
    kinds: tuple[type[Event], ...],
    stronger: type[Event],
) -> Event | None:
    own = [event for event in events if isinstance(event, kinds)]
    if not own:
        return before
    return last_word([*own, *([before] if before else [])], stronger)


def _against(state: _State) -> Event | None:
    """Rule 10: the revocation or else the suspension in force."""
    if state.revoked is not None:
        good = state.good
        if good is None or good.grant.occurred_on <= state.revoked.occurred_on:
            return state.revoked
    return state.paused if isinstance(state.paused, Suspend) else None
