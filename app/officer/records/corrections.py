"""Corrections: made alone where no standing rises, else proposed and confirmed. No Flask here.

Every function runs inside the caller's writing transaction.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from sqlalchemy import Connection

from app.accounts.people import set_active
from app.accounts.sessions import end_all_sessions
from app.ids import new_id
from app.officer.actions import Decide, Doer, Signed, sign
from app.records.deciding import decisions as d
from app.records.deciding.raising import Rise, rises
from app.records.deciding.reached import is_about_many
from app.records.events import (
    ContentRevised,
    CorrectionProposed,
    CounterEntry,
    Event,
    IdentityMerged,
    TrainerAuthorised,
)
from app.records.ledger.door import Receipt, event_by_id, history_of, light_events
from app.records.ledger.proposals import is_closed
from app.records.policy import Policy
from app.trade.errors import Refusal


@dataclass(frozen=True, slots=True)
class Asked:
    """A correction somebody asks for.

    about: the record to be void, or the id merged into person; is_proposed: put to another officer.
    """

    correction: Literal["counter-entry", "identity-merged"]
    about: str
    reason: str
    person: str = ""
    is_proposed: bool = False


def would_raise(connection: Connection, policy: Policy, doer: Doer, asked: Asked) -> Iterator[Rise]:
    """The days on which a correction would raise a standing; none where it would be refused.

    Worked out one after another, since they can be of many people.
    """
    whom = _whom(connection, asked)
    history = list(light_events(connection)) if whom is None else history_of(connection, *whom)
    act = d.Act(
        id=new_id(), by=doer.person_id, now=doer.now, occurred_on=doer.today, zone=doer.zone.key
    )
    try:
        correction = _made(history, act, asked)
    except Refusal:
        return iter(())
    return rises(history, correction, policy)


def correct(
    connection: Connection, policy: Policy, doer: Doer, signed: Signed, asked: Asked
) -> Receipt | Refusal:
    """Make a correction alone, or propose it. Raises NeedsSecondOfficer where one is not enough."""
    whom = _whom(connection, asked)
    if asked.is_proposed:
        return sign(connection, doer, signed, whom, proposed(asked))
    receipt = sign(connection, doer, signed, whom, made_alone(asked, policy))
    _close_merged(connection, doer, receipt)
    return receipt


def made_alone(asked: Asked, policy: Policy) -> Decide:
    """The decision to make a correction by oneself."""
    return lambda history, act: d.alone(history, act, _made(history, act, asked), policy)


def proposed(asked: Asked) -> Decide:
    """The decision to propose a correction."""
    return lambda history, act: d.decide_propose(
        history,
        act,
        correction=asked.correction,
        about=asked.about,
        reason=asked.reason,
        person=asked.person,
    )


def confirm(
    connection: Connection, doer: Doer, signed: Signed, proposal: CorrectionProposed
) -> Receipt | Refusal:
    """Make what another officer proposed."""
    closed = is_closed(connection, proposal, but=signed.record_id)
    asked = Asked(proposal.correction, proposal.about, proposal.reason, proposal.person)
    whom = _whom(connection, asked)
    receipt = sign(connection, doer, signed, whom, confirmed(proposal, is_closed=closed))
    _close_merged(connection, doer, receipt)
    return receipt


def confirmed(proposal: CorrectionProposed, *, is_closed: bool) -> Decide:
    """The decision to confirm a proposal."""
    return lambda history, act: d.decide_confirm(
        history, act, proposal=proposal, is_closed=is_closed
    )


def _made(history: list[Event], act: d.Act, asked: Asked) -> CounterEntry | IdentityMerged:
    if asked.correction == "identity-merged":
        return d.decide_merge(
            history, act, person=asked.person, merged=asked.about, reason=asked.reason
        )
    return d.decide_counter_entry(history, act, target=asked.about, reason=asked.reason)


def _whom(connection: Connection, asked: Asked) -> tuple[str, ...] | None:
    """Whose records have to be read; None for everybody's."""
    if asked.correction == "identity-merged":
        both = (asked.person, asked.about)
        signing = {e.person for e in history_of(connection) if isinstance(e, TrainerAuthorised)}
        return None if signing & set(both) else both
    target = at_last_about(connection, asked.about)
    if isinstance(target, ContentRevised) and target.change == "editorial":
        return ()  # it asks nothing of anybody
    if target is None or is_about_many(target):
        return None
    if isinstance(target, CorrectionProposed) and not target.person:
        return None
    return (target.person,) if target.person else ()


def at_last_about(connection: Connection, record_id: str) -> Event | None:
    """The record itself; of a counter-entry, what it is at last about."""
    found = event_by_id(connection, record_id)
    while isinstance(found, CounterEntry):
        found = event_by_id(connection, found.target)
    return found


def _close_merged(connection: Connection, doer: Doer, receipt: Receipt | Refusal) -> None:
    """The second entry of a person can no longer sign in."""
    if isinstance(receipt, Refusal) or receipt.is_repeat:
        return
    event = event_by_id(connection, receipt.id)
    if isinstance(event, IdentityMerged):
        set_active(connection, event.merged, False)
        end_all_sessions(connection, event.merged, doer.now)
