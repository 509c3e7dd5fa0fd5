"""What every decision needs to know about the act itself, and the checks all of them share."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from typing import TypedDict

from app.records.days import civil_day
from app.records.deciding.refusals import DatedInFuture, ReasonMissing, TrainerNotAuthorised
from app.records.events import Event
from app.records.standing.settling import Settled, settle


@dataclass(frozen=True, kw_only=True, slots=True)
class Act:
    """Who records what when: a new id, the person acting, now (UTC), the day and zone of the site.

    Example: ``Act(id=new_id(), by="M1", now=clock(), occurred_on=day, zone="America/Chicago")``.
    """

    id: str
    by: str
    now: datetime
    occurred_on: date
    zone: str


class Stamped(TypedDict):
    """The fields an act gives to every event."""

    id: str
    occurred_on: date
    zone: str
    recorded_at: datetime
    recorded_by: str


def stamped(act: Act) -> Stamped:
    """The common fields of the event that an act makes. Raises DatedInFuture."""
    if act.occurred_on > civil_day(act.now, act.zone):
        raise DatedInFuture(on=act.occurred_on)
    return Stamped(
        id=act.id,
        occurred_on=act.occurred_on,
        zone=act.zone,
        recorded_at=act.now,
        recorded_by=act.by,
    )


def settled_before(history: Iterable[Event], act: Act) -> Settled:
    """The history without the act itself, so that sending an act again is decided as at first."""
    return settle(event for event in history if event.id != act.id)


def reason_given(reason: str) -> str:
    """The reason without outer blanks. Raises ReasonMissing for an empty one."""
    if not reason.strip():
        raise ReasonMissing
    return reason.strip()


def must_be_authorised(settled: Settled, trainer: str, qualification: str, on: date) -> None:
    """Raises TrainerNotAuthorised unless the trainer may sign for it on that day."""
    if not settled.may_sign(trainer, qualification, on):
        raise TrainerNotAuthorised(trainer=trainer, qualification=qualification, on=on)
