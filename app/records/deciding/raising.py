"""PURE. Whether a correction raises anybody's standing: then two people have to agree to it.

It does if on any day, past or still to come, a status is weighed better than without it. Lasting
longer is being better on a later day. Statuses over all days come from the projection's pure part,
because asking judge() of every day takes minutes; a test holds this equal to doing just that.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from app.records.deciding.reached import at_last_about, reached
from app.records.events import ContentRevised, Event, Grant
from app.records.policy import Policy, QualificationPolicy
from app.records.projection.pure.statuses import StatusFrom, statuses_over
from app.records.projection.pure.timeline import intervals_of
from app.records.standing.definition import Status
from app.records.standing.settling import Settled, settle

# From what weighs most against a person to what lets them work. Ours: a revocation says more than
# no qualification at all, and what once was granted says more than what never was.
_RANK: dict[Status, int] = {
    "revoked": 0,
    "suspended": 1,
    "not-qualified": 2,
    "expired": 3,
    "lapsed": 3,
    "update-needed": 4,
    "current": 5,
}


@dataclass(frozen=True, slots=True)
class Rise:
    """Days in one piece, both ends included, on which a status is better; to_on None: for good."""

    person: str
    qualification: str
    from_on: date
    to_on: date | None
    before: Status
    after: Status


def is_better(after: Status, before: Status) -> bool:
    """Whether one status is weighed better. Example: ``is_better("current", "suspended")``."""
    return _RANK[after] > _RANK[before]


def rises(history: Sequence[Event], correction: Event, policy: Policy) -> Iterator[Rise]:
    """Every stretch of days on which a counter-entry or a merge makes a status better.

    history: all that bears on whom it touches: everything, where what it is at last about, or it
    itself, is_about_many(). In order of day for each person and qualification.
    Example: ``next(rises(history, entry, policy), None) is not None``.
    """
    before, after = settle(history), settle([*history, correction])
    target = at_last_about(history, correction)
    for person, rule in reached(history, correction, policy, before, after):
        own = intervals_of(before, rule, person)
        old = statuses_over(before, rule, own)
        if not _is_clock_only(target, before, rule, person):
            own = intervals_of(after, rule, person)
        new = statuses_over(after, rule, own)
        if old != new:
            for from_on, to_on, was, becomes in _beside(old, new):
                if is_better(becomes, was):
                    yield Rise(person, rule.id, from_on, to_on, was, becomes)


def _is_clock_only(
    target: Event | None, settled: Settled, rule: QualificationPolicy, person: str
) -> bool:
    """Whether nothing but the clocks can feel it: a revision later than all the person's grants."""
    if not isinstance(target, ContentRevised):
        return False
    return not any(
        isinstance(event, Grant) and event.qualification == rule.id
        for event in settled.by_person.get(settled.who(person), ())
        if event.occurred_on >= target.occurred_on
    )


def _beside(
    old: Iterable[StatusFrom], new: Iterable[StatusFrom]
) -> Iterator[tuple[date, date | None, Status, Status]]:
    """The days from one change on either side to the next: from, to, and both statuses."""
    was, becomes = dict(old), dict(new)
    days = sorted(was.keys() | becomes.keys())
    one, other = was[date.min], becomes[date.min]
    for day, following in zip(days, [*days[1:], None], strict=True):
        one, other = was.get(day, one), becomes.get(day, other)
        yield day, following and following - timedelta(days=1), one, other
