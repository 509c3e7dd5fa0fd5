"""PURE. Whether a correction raises anybody's standing: then two people have to agree to it."""

from collections.abc import Iterable, Sequence

from app.records.acts import Act
from app.records.days import civil_day
from app.records.events import (
    ContentRevised,
    CounterEntry,
    Event,
    IdentityMerged,
    TrainerAuthorised,
    TrainerWithdrawn,
)
from app.records.policy import Policy, QualificationPolicy
from app.records.settling import Settled, settle
from app.records.standing import Standing, Status, judge

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
_ON_MANY = (TrainerAuthorised, TrainerWithdrawn, ContentRevised, IdentityMerged)


def is_raised(before: Standing, after: Standing) -> bool:
    """Whether a standing is better than before, or as good and lasts longer.

    Example: a suspension taken away, or a later last good day.
    """
    if _RANK[before.status] != _RANK[after.status]:
        return _RANK[after.status] > _RANK[before.status]
    return after.is_current and _later(after) > _later(before)


def _later(standing: Standing) -> tuple[bool, int]:
    """When a current standing ends by its clocks; no end is the latest."""
    ends = [day for day in (standing.last_good_day, standing.continuity_due_on) if day]
    return (not ends, min(ends).toordinal() if ends else 0)


def is_about_many(event: Event | None) -> bool:
    """Whether a record, or taking it away, may touch others than the person it is about."""
    return isinstance(event, _ON_MANY)


def raises_standing(history: Sequence[Event], act: Act, correction: Event, policy: Policy) -> bool:
    """Whether a counter-entry or a merge raises any standing on the day it is made.

    history: all that bears on whom it touches: everything, where what it is at last about, or it
    itself, is_about_many().
    """
    on = civil_day(act.now, act.zone)
    before, after = settle(history), settle([*history, correction])
    return any(
        is_raised(judge(before, rule, person, on), judge(after, rule, person, on))
        for person in _touched(history, correction, after)
        for rule in _rules(history, correction, policy)
    )


def _touched(history: Sequence[Event], correction: Event, after: Settled) -> Iterable[str]:
    target = _target(history, correction)
    if isinstance(correction, CounterEntry) and target and not is_about_many(target):
        return (correction.person,) if correction.person else ()
    return {event.person for event in history if event.person} | after.by_person.keys()


def _rules(
    history: Sequence[Event], correction: Event, policy: Policy
) -> Iterable[QualificationPolicy]:
    target = _target(history, correction)
    rules = policy.qualifications.values()
    if isinstance(target, ContentRevised):
        return [rule for rule in rules if target.module in rule.modules]
    if isinstance(target, TrainerAuthorised | TrainerWithdrawn):
        return [rule for rule in rules if rule.id == target.qualification]
    return list(rules)


def _target(history: Sequence[Event], correction: Event) -> Event | None:
    """What a counter-entry is at last about: one that counters another is about that one's."""
    by_id = {event.id: event for event in history}
    seen: Event | None = correction
    while isinstance(seen, CounterEntry):
        seen = by_id.get(seen.target)
    return None if seen is correction else seen
