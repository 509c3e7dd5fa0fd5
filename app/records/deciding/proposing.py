"""Decisions about corrections that raise a standing: one proposes, another confirms."""

from collections.abc import Iterable
from dataclasses import replace
from typing import Literal

from app.records.deciding.acts import Act, settled_before, stamped
from app.records.deciding.correcting import decide_counter_entry, decide_merge
from app.records.deciding.raising import rises
from app.records.deciding.refusals import NeedsSecondOfficer, ProposalClosed, SecondIsFirst
from app.records.events import CorrectionProposed, CounterEntry, Event, IdentityMerged
from app.records.policy import Policy

Correction = CounterEntry | IdentityMerged


def alone(history: Iterable[Event], act: Act, correction: Correction, policy: Policy) -> Correction:
    """The correction, if one person may make it. Raises NeedsSecondOfficer if it raises a standing.

    history: see rises().
    """
    before = [event for event in history if event.id != act.id]
    if next(rises(before, correction, policy), None) is not None:
        raise NeedsSecondOfficer
    return correction


def decide_propose(
    history: Iterable[Event],
    act: Act,
    *,
    correction: Literal["counter-entry", "identity-merged"],
    about: str,
    reason: str,
    person: str = "",
) -> CorrectionProposed:
    """A correction put to another officer. Raises whatever the correction itself would be refused.

    about: the record to be void, or the id merged into person.
    """
    would = _corrected(list(history), act, correction, about, reason, person)
    return CorrectionProposed(
        **stamped(act),
        person=would.person,
        qualification=would.qualification,
        correction=correction,
        about=about,
        reason=would.reason,
    )


def decide_confirm(
    history: Iterable[Event], act: Act, *, proposal: CorrectionProposed, is_closed: bool
) -> Correction:
    """What was proposed, made by another person; it names both.

    is_closed: it was confirmed or withdrawn, see proposals.py. Raises SecondIsFirst,
    ProposalClosed, and what the correction itself would be refused.
    """
    events = list(history)
    settled = settled_before(events, act)
    if settled.who(act.by) == settled.who(proposal.recorded_by):
        raise SecondIsFirst
    if is_closed:
        raise ProposalClosed
    made = _corrected(
        events, act, proposal.correction, proposal.about, proposal.reason, proposal.person
    )
    return replace(made, proposal=proposal.id, proposed_by=proposal.recorded_by)


def _corrected(
    events: list[Event], act: Act, correction: str, about: str, reason: str, person: str
) -> Correction:
    if correction == "identity-merged":
        return decide_merge(events, act, person=person, merged=about, reason=reason)
    return decide_counter_entry(events, act, target=about, reason=reason)
