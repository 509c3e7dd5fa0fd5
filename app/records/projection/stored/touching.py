"""Whose standing a record bears on: whom an append has to work out again, and nobody else."""

from collections.abc import Iterable, Iterator
from typing import Any

from sqlalchemy import Connection, Select, select

from app.records.events import (
    ContentRevised,
    CounterEntry,
    Countersign,
    Decided,
    Event,
    Grant,
    IdentityMerged,
    Practical,
    Quiz,
    TrainerAuthorised,
    TrainerWithdrawn,
    Training,
    Use,
    Watched,
    WorkerCountersign,
)
from app.records.ledger.columns import LIGHT, light_event
from app.records.ledger.shared_records import SharedRecords
from app.records.ledger.tables import IS_GRANT, record
from app.records.policy import Policy

# person -> the qualifications to be worked out again
Touched = dict[str, set[str]]
_SIGNED = (Practical.kind, Use.kind, Countersign.kind)


def touched(connection: Connection, shared: SharedRecords, policy: Policy, event: Event) -> Touched:
    """Whose standings may be others with a record than without it.

    shared: with the record in it, if it is one of them. A record that is pointed to counts as
    touched by what points to it.
    """
    found: Touched = {}
    for person, names in _touches(connection, shared, policy, event):
        own = {name for name in names if name in policy.qualifications}
        for each in shared.ids_of(person) if own else ():
            found.setdefault(each, set()).update(own)
    return found


def _touches(
    connection: Connection, shared: SharedRecords, policy: Policy, event: Event
) -> Iterator[tuple[str, Iterable[str]]]:
    if isinstance(event, Watched | Decided):
        yield event.person, (event.qualification,)
    elif isinstance(event, Training | Quiz):
        yield event.person, _granted(connection, shared, policy, event)
    elif isinstance(event, TrainerAuthorised | TrainerWithdrawn):
        for person in _signed_by(connection, shared.ids_of(event.person), event):
            yield person, (event.qualification,)
    elif isinstance(event, ContentRevised):
        yield from _granted_since(connection, policy, event)
    elif isinstance(event, IdentityMerged):
        ids = shared.ids_of(event.person)
        for person in {*ids, *_signed_by(connection, ids, None)}:
            yield person, policy.qualifications
    elif isinstance(event, CounterEntry | Countersign | WorkerCountersign):
        target = _by_id(connection, event.target)
        if isinstance(event, CounterEntry) and target is not None:
            yield from _touches(connection, shared, policy, target)
        elif isinstance(target, Watched):
            yield target.person, (target.qualification,)


def _by_id(connection: Connection, record_id: str) -> Event | None:
    wanted = select(*(record.c[name] for name in LIGHT)).where(record.c.id == record_id)
    row = connection.execute(wanted).mappings().first()
    return None if row is None else light_event(row)


def _with_module(policy: Policy, module: str) -> list[str]:
    return [name for name, rule in policy.qualifications.items() if module in rule.modules]


def _granted(
    connection: Connection, shared: SharedRecords, policy: Policy, event: Training | Quiz
) -> list[str]:
    """The qualifications with a grant that a training or quiz may bear on.

    A quiz only supports a grant of its own day or later; training also keeps one up to date.
    """
    wanted = (
        select(record.c.qualification)
        .distinct()
        .where(
            record.c.person.in_(shared.ids_of(event.person)),
            record.c.qualification.in_(_with_module(policy, event.module)),
            record.c.kind == Grant.kind,
        )
    )
    if isinstance(event, Quiz):
        wanted = wanted.where(record.c.occurred_on >= event.occurred_on.isoformat())
    return list(connection.scalars(wanted))


def _granted_since(
    connection: Connection, policy: Policy, event: ContentRevised
) -> Iterator[tuple[str, tuple[str]]]:
    """A revision bears on the support of grants from its day on; the clocks ask for it later."""
    since = event.occurred_on.isoformat()
    wanted = select(record.c.person, record.c.qualification).where(
        IS_GRANT, record.c.occurred_on >= since
    )
    names = _with_module(policy, event.module)
    for person, name in {(row.person, row.qualification) for row in connection.execute(wanted)}:
        if name in names:
            yield person, (name,)


def _signed_by(
    connection: Connection,
    trainers: Iterable[str],
    event: TrainerAuthorised | TrainerWithdrawn | None,
) -> list[str]:
    """The people with records that name any of these as who signed.

    event: only what a trainer signs for others, from its day on; None: anything.
    """
    wanted: Select[Any] = (
        select(record.c.person).distinct().where(record.c.trainer.in_(sorted(trainers)))
    )
    if event is not None:
        since = event.occurred_on.isoformat()
        wanted = wanted.where(record.c.occurred_on >= since, record.c.kind.in_(_SIGNED))
    return list(connection.scalars(wanted))
