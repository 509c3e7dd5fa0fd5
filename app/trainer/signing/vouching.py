"""Other records of a trainer: the verified job, a countersign, a counter-entry. No Flask here.

Every function runs inside the caller's writing transaction. Refusals come back as values so that a
wrong password stays counted; nothing else has been written by then.
"""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection

from app.accounts.people import person_by_id
from app.accounts.printed_names import seal_name
from app.curriculum.model import Curriculum
from app.records.deciding.decisions import (
    alone,
    decide_counter_entry,
    decide_countersign,
    decide_use,
)
from app.records.deciding.manifesting import signed
from app.records.deciding.refusals import NoSuchRecord
from app.records.events import Watched
from app.records.ledger.door import Receipt, append, event_by_id, history_of
from app.records.policy import policy_from
from app.records.standing.definition import standing
from app.records.standing.settling import settle
from app.trade.errors import Refusal
from app.trainer.doing import Doer, Refused, password_refused
from app.trainer.repairs.actions import NobodyChosen, may_watch
from app.trainer.signing.sign_off import first_receipt
from app.workbook.jobs import Job


class NotQualifiedThatDay(Refusal):
    """A verified job by somebody who was not qualified for it."""

    template = (
        "{person} was not qualified as {qualification} on {on}, so a verified job would not count. "
        "Watch a supervised repair instead."
    )


@dataclass(frozen=True, slots=True)
class Verified:
    """A verified job as the form has it: who did it, under which qualification, on which day."""

    record_id: str
    person_id: str
    qualification_id: str
    occurred_on: date


def verify_job(
    connection: Connection,
    curriculum: Curriculum,
    job: Job,
    asked: Verified,
    password: str,
    doer: Doer,
) -> Receipt | Refused:
    """Record that a qualified person did this job. Sent again, it gives the first receipt."""
    earlier = first_receipt(connection, asked.record_id, doer)
    if earlier is not None:
        return earlier
    refused = _may_verify(connection, curriculum, asked, doer)
    refused = refused or password_refused(connection, doer, password)
    if refused is not None:
        return refused
    history = history_of(connection, asked.person_id, doer.person_id)
    rule = policy_from(curriculum).rule(asked.qualification_id)
    act = doer.act(asked.record_id, asked.occurred_on)
    try:
        event = decide_use(history, rule, act, person=asked.person_id, job=job.id)
    except Refusal as refusal:
        return Refused("person", refusal)
    seal = seal_name(connection, doer.person_id, doer.name)
    return append(connection, signed(event, seal, doer.language))


def _may_verify(
    connection: Connection, curriculum: Curriculum, asked: Verified, doer: Doer
) -> Refused | None:
    person = person_by_id(connection, asked.person_id)
    if person is None or not person.is_active:
        return Refused("person", NobodyChosen())
    history = history_of(connection, asked.person_id, doer.person_id)
    about = (asked.person_id, asked.qualification_id, asked.occurred_on)
    refused = may_watch(settle(history), *about, doer)
    if refused is not None:
        return refused
    if standing(history, policy_from(curriculum), *about).is_current:
        return None
    refusal = NotQualifiedThatDay(
        person=person.name, qualification=asked.qualification_id, on=asked.occurred_on
    )
    return Refused("person", refusal)


def counter(
    connection: Connection,
    curriculum: Curriculum,
    record_id: str,
    target: str,
    reason: str,
    password: str,
    doer: Doer,
) -> Receipt | Refused:
    """Make a record void with a reason. Only whoever signed it may do so here.

    What would raise a standing is refused: that takes two safety officers.
    """
    event = event_by_id(connection, target)
    if not isinstance(event, Watched) or event.trainer != doer.person_id:
        return Refused("reason", NoSuchRecord(id=target))
    history = history_of(connection, event.person, doer.person_id)
    try:
        act = doer.act(record_id)
        asked = decide_counter_entry(history, act, target=target, reason=reason)
        entry = alone(history, act, asked, policy_from(curriculum))
    except Refusal as refusal:
        return Refused("reason", refusal)
    refused = password_refused(connection, doer, password)
    if refused is not None:
        return refused
    seal = seal_name(connection, doer.person_id, doer.name)
    return append(connection, signed(entry, seal, doer.language))


def vouch(
    connection: Connection,
    curriculum: Curriculum,
    record_id: str,
    target: str,
    password: str,
    doer: Doer,
) -> Receipt | Refused:
    """Countersign a record of another trainer that came in late."""
    event = event_by_id(connection, target)
    if not isinstance(event, Watched):
        return Refused("password", NoSuchRecord(id=target))
    history = history_of(connection, event.person, event.trainer, doer.person_id)
    try:
        rule = policy_from(curriculum).rule(event.qualification)
        entry = decide_countersign(history, rule, doer.act(record_id), target=target)
    except Refusal as refusal:
        return Refused("password", refusal)
    refused = password_refused(connection, doer, password)
    if refused is not None:
        return refused
    seal = seal_name(connection, doer.person_id, doer.name)
    return append(connection, signed(entry, seal, doer.language))
