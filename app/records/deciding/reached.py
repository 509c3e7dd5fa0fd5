"""PURE. Whose standing a correction may change, and in which qualifications.

Rather one too many than one too few: a test compares with every person and every qualification.
"""

from collections.abc import Iterable, Iterator, Sequence

from app.records.events import (
    ContentRevised,
    CounterEntry,
    Countersign,
    Decided,
    Event,
    Grant,
    IdentityMerged,
    TrainerAuthorised,
    TrainerWithdrawn,
    Watched,
)
from app.records.policy import Policy, QualificationPolicy
from app.records.standing.settling import Settled

_ON_MANY = (TrainerAuthorised, TrainerWithdrawn, ContentRevised, IdentityMerged)


def is_about_many(event: Event | None) -> bool:
    """Whether a record, or taking it away, may touch others than the person it is about."""
    return isinstance(event, _ON_MANY)


def reached(
    history: Sequence[Event], correction: Event, policy: Policy, before: Settled, after: Settled
) -> Iterator[tuple[str, QualificationPolicy]]:
    """Each person and qualification that a counter-entry or a merge may bear on, once.

    before, after: the history settled without and with the correction. One id stands for all that
    are taken for one person. Nobody has a standing other than "not qualified" where nothing was
    ever decided about them. Source: assessment section 5.
    """
    target = at_last_about(history, correction)
    rules = list(_rules(target, policy))
    people = _people(history, correction, target, before, after)
    for person in _each_once(people, history, before, after):
        both = (settled.by_person.get(settled.who(person), ()) for settled in (before, after))
        decided = {e.qualification for own in both for e in own if isinstance(e, Decided)}
        for rule in rules:
            if rule.id in decided:
                yield person, rule


def _each_once(
    people: Iterable[str], history: Iterable[Event], before: Settled, after: Settled
) -> Iterable[str]:
    """Of ids that are one person with the correction and without it, the one that was kept."""
    merged = {event.merged for event in history if isinstance(event, IdentityMerged)}
    kept_first = sorted(people, key=lambda person: person in merged)
    return {(before.who(p), after.who(p)): p for p in reversed(kept_first)}.values()


def at_last_about(history: Iterable[Event], correction: Event) -> Event | None:
    """What a counter-entry is at last about; a merge is about itself. None if it is not here."""
    by_id = {event.id: event for event in history}
    seen: Event | None = correction
    while isinstance(seen, CounterEntry):
        seen = by_id.get(seen.target)
    return seen


def _rules(target: Event | None, policy: Policy) -> Iterable[QualificationPolicy]:
    rules = policy.qualifications.values()
    if isinstance(target, ContentRevised):
        is_major = target.change == "major"  # an editorial one asks nothing of anybody
        return [rule for rule in rules if is_major and target.module in rule.modules]
    if isinstance(target, TrainerAuthorised | TrainerWithdrawn):
        return [rule for rule in rules if rule.id == target.qualification]
    return rules


def _people(
    history: Sequence[Event],
    correction: Event,
    target: Event | None,
    before: Settled,
    after: Settled,
) -> Iterable[str]:
    if isinstance(target, ContentRevised):
        return dict.fromkeys(event.person for event in history if isinstance(event, Grant))
    if isinstance(target, TrainerAuthorised | TrainerWithdrawn):
        return _signed_by(history, target, before)
    if isinstance(target, IdentityMerged):
        return _naming(history, _taken_for_one(target, before, after))
    if target is not None:
        return (correction.person,) if correction.person else ()
    return dict.fromkeys(event.person for event in history if event.person)


def _signed_by(
    history: Iterable[Event], target: TrainerAuthorised | TrainerWithdrawn, settled: Settled
) -> Iterable[str]:
    """The people with work that the trainer signed or countersigned."""
    trainer = settled.who(target.person)
    return dict.fromkeys(
        event.person
        for event in history
        if isinstance(event, Watched | Countersign) and settled.who(event.trainer) == trainer
    )


def _taken_for_one(target: IdentityMerged, before: Settled, after: Settled) -> set[str]:
    """All ids that are, with the merge or without it, taken for one person with either end."""
    found = {target.person, target.merged}
    for settled in (before, after):
        ends = {settled.who(target.person), settled.who(target.merged)}
        found |= {one for one, who in settled.same.items() if who in ends}
    return found


def _naming(history: Iterable[Event], ids: set[str]) -> Iterable[str]:
    """The people with a record about, signed by, or decided by any of these."""
    return dict.fromkeys(
        event.person
        for event in history
        if event.person
        and not ids.isdisjoint(
            getattr(event, name, "") for name in ("person", "trainer", "examiner", "decider")
        )
    )
