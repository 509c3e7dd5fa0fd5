"""What a safety officer may do: read, decide, append; no Flask here.

Every function runs inside the caller's writing transaction, so that all of an act is kept or none.
A wrong password is returned, so that the failure is kept; every other refusal is raised.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from typing import TypeAlias
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from app.accounts.printed_names import seal_name
from app.accounts.sign_in import confirm_password
from app.records.deciding import decisions as d
from app.records.deciding.manifesting import signed as signed_by
from app.records.events import Event
from app.records.ledger.door import Receipt, append, event_by_id, history_of, light_events
from app.records.policy import Policy
from app.trade.errors import Refusal

Decide: TypeAlias = Callable[[list[Event], d.Act], Event]

VERBS = ("grant", "suspend", "lift", "revoke")


@dataclass(frozen=True, slots=True)
class Doer:
    """Who acts, when and where."""

    person_id: str
    now: datetime
    zone: ZoneInfo
    name: str
    language: str = ""

    @property
    def today(self) -> date:
        """The civil day where the firm works."""
        return self.now.astimezone(self.zone).date()


@dataclass(frozen=True, slots=True)
class Signed:
    """What every signed form brings: the record's id, made with the form; the day; the password."""

    record_id: str
    occurred_on: date
    password: str


def sign(
    connection: Connection,
    doer: Doer,
    signed: Signed,
    people: tuple[str, ...] | None,
    decide: Decide,
) -> Receipt | Refusal:
    """Check the password, decide on what is known about these people, and keep the event.

    people: None for everybody, in columns only.
    A form sent again is decided on what was known when it came first, so that it is the same
    event and gets the first receipt. Returns WrongSignIn or TooManyFailures; raises the others.
    """
    refusal = confirm_password(connection, doer.person_id, signed.password, doer.now)
    if refusal is not None:
        return refusal
    earlier = event_by_id(connection, signed.record_id)
    first_at = earlier.recorded_at if earlier else None
    act = d.Act(
        id=signed.record_id,
        by=doer.person_id,
        now=first_at or doer.now,
        occurred_on=signed.occurred_on,
        zone=doer.zone.key,
    )
    if people is None:
        history = list(light_events(connection, known_on=first_at))
    else:
        history = history_of(connection, *people, known_on=first_at)
    event = decide(history, act)
    kept = earlier.signature.printed_name if earlier and earlier.signature else ""
    seal = kept or seal_name(connection, doer.person_id, doer.name)
    return append(connection, signed_by(event, seal, doer.language))


def decision(policy: Policy, verb: str, person: str, qualification: str, reason: str) -> Decide:
    """The decision about a person that a verb of VERBS stands for."""
    if verb == "grant":
        return lambda history, act: d.decide_grant(
            history, policy, act, person=person, qualification=qualification, reason=reason
        )
    decide = {"suspend": d.decide_suspend, "lift": d.decide_lift, "revoke": d.decide_revoke}[verb]
    rule = policy.rule(qualification)
    return lambda history, act: decide(history, rule, act, person=person, reason=reason)


def authorisation(change: str, person: str, qualification: str, reason: str) -> Decide:
    """Let a trainer sign for a qualification ("authorise"), or no longer ("withdraw")."""
    if change == "authorise":
        return lambda history, act: d.decide_authorise_trainer(
            history, act, person=person, qualification=qualification
        )
    return lambda history, act: d.decide_withdraw_trainer(
        history, act, person=person, qualification=qualification, reason=reason
    )


def counter_entry(target: str, reason: str) -> Decide:
    """Make a record void."""
    return lambda history, act: d.decide_counter_entry(history, act, target=target, reason=reason)
