"""Decisions about trainers and the records themselves."""

from collections.abc import Iterable

from app.records.deciding.acts import Act, reason_given, settled_before, stamped
from app.records.deciding.refusals import (
    AlreadyAuthorised,
    AlreadyMerged,
    AlreadyVoid,
    DeciderIsPerson,
    NoSuchRecord,
    NothingToWithdraw,
    SamePerson,
)
from app.records.events import (
    CounterEntry,
    Event,
    IdentityMerged,
    TrainerAuthorised,
    TrainerWithdrawn,
)


def decide_authorise_trainer(
    history: Iterable[Event], act: Act, *, person: str, qualification: str
) -> TrainerAuthorised:
    """A trainer may sign for a qualification. Raises DeciderIsPerson, AlreadyAuthorised."""
    settled = settled_before(history, act)
    if settled.who(act.by) == settled.who(person):
        raise DeciderIsPerson
    if settled.may_sign(person, qualification, act.occurred_on):
        raise AlreadyAuthorised(qualification=qualification)
    return TrainerAuthorised(**stamped(act), person=person, qualification=qualification)


def decide_withdraw_trainer(
    history: Iterable[Event], act: Act, *, person: str, qualification: str, reason: str
) -> TrainerWithdrawn:
    """A trainer may no longer sign. Raises ReasonMissing, NothingToWithdraw."""
    settled = settled_before(history, act)
    if not settled.may_sign(person, qualification, act.occurred_on):
        raise NothingToWithdraw(qualification=qualification)
    return TrainerWithdrawn(
        **stamped(act), person=person, qualification=qualification, reason=reason_given(reason)
    )


def decide_counter_entry(
    history: Iterable[Event], act: Act, *, target: str, reason: str
) -> CounterEntry:
    """A record made void by a later one. Whether one person may do it alone: see proposing.py.

    Raises ReasonMissing, NoSuchRecord, AlreadyVoid, DeciderIsPerson (a record about oneself).
    """
    events = list(history)
    found = next((event for event in events if event.id == target), None)
    if found is None:
        raise NoSuchRecord(id=target)
    settled = settled_before(events, act)
    if found.person and settled.who(act.by) == settled.who(found.person):
        raise DeciderIsPerson
    if target in settled.voided:
        raise AlreadyVoid
    return CounterEntry(
        **stamped(act),
        person=found.person,
        qualification=found.qualification,
        target=target,
        reason=reason_given(reason),
    )


def decide_merge(
    history: Iterable[Event], act: Act, *, person: str, merged: str, reason: str
) -> IdentityMerged:
    """A person entered twice made one. Raises ReasonMissing, SamePerson, AlreadyMerged."""
    if person == merged:
        raise SamePerson
    settled = settled_before(history, act)
    if settled.who(act.by) in (settled.who(person), settled.who(merged)):
        raise DeciderIsPerson
    if settled.who(person) == settled.who(merged):
        raise AlreadyMerged
    return IdentityMerged(**stamped(act), person=person, merged=merged, reason=reason_given(reason))
