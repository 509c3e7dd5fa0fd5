"""Decisions of the safety officer about a person: grant, suspend, lift, revoke."""

from collections.abc import Iterable

from app.records.deciding.acts import Act, reason_given, settled_before, stamped
from app.records.deciding.refusals import (
    AlreadyRecorded,
    AlreadySuspended,
    DeciderIsPerson,
    DeciderWasTrainer,
    EvidenceMissing,
    NothingToLift,
    NothingToRevoke,
    PrerequisiteMissing,
)
from app.records.events import Event, Grant, Lift, Revoke, Suspend
from app.records.policy import Policy, QualificationPolicy
from app.records.standing.case import Case, gather
from app.records.standing.counting import count
from app.records.standing.definition import judge
from app.records.standing.grants import Asked, Support, support
from app.records.standing.reasons import sentence
from app.records.standing.settling import Settled


def decide_grant(
    history: Iterable[Event],
    policy: Policy,
    act: Act,
    *,
    person: str,
    qualification: str,
    reason: str = "",
) -> Grant:
    """A qualification given on complete evidence by somebody who had no part in it.

    Raises DeciderIsPerson, PrerequisiteMissing, EvidenceMissing (listing what),
    DeciderWasTrainer, AlreadyRecorded (a standing grant of the same day), DatedInFuture.
    """
    rule = policy.rule(qualification)
    settled = settled_before(history, act)
    common = stamped(act)
    if settled.who(act.by) == settled.who(person):
        raise DeciderIsPerson
    _check_prerequisites(settled, policy, rule, act, person)
    found = _complete_evidence(settled, rule, act, person)
    for earlier in gather(settled, rule, person, act.occurred_on).grants:
        if earlier.stands and earlier.grant.occurred_on == act.occurred_on:
            raise AlreadyRecorded(id=earlier.grant.id)
    return Grant(
        **common,
        person=person,
        qualification=qualification,
        decider=act.by,
        reason=reason.strip(),
        evidence=found.evidence,
        policy_version=rule.policy_version,
    )


def _check_prerequisites(
    settled: Settled, policy: Policy, rule: QualificationPolicy, act: Act, person: str
) -> None:
    missing = [
        other
        for other in rule.prerequisites
        if not judge(settled, policy.rule(other), person, act.occurred_on).is_current
    ]
    if missing:
        raise PrerequisiteMissing(missing=", ".join(missing))


def _complete_evidence(
    settled: Settled, rule: QualificationPolicy, act: Act, person: str
) -> Support:
    """What the grant rests on, without the decider's own part in it."""
    counted = count(settled, rule, person, act.occurred_on)

    def look(decider: str | None) -> Support:
        return support(Asked(settled, rule, person, act.occurred_on, decider), counted)

    found = look(act.by)
    if found.gaps:
        what = " ".join(sentence(gap) for gap in found.gaps)
        if not look(None).gaps:
            raise DeciderWasTrainer(what=what, gaps=found.gaps)
        raise EvidenceMissing(what=what, gaps=found.gaps)
    return found


def decide_suspend(
    history: Iterable[Event], rule: QualificationPolicy, act: Act, *, person: str, reason: str
) -> Suspend:
    """A qualification put on hold. Raises ReasonMissing, AlreadySuspended, DatedInFuture."""
    case = _case(history, rule, act, person)
    if case.suspended is not None:
        raise AlreadySuspended
    return Suspend(
        **stamped(act),
        person=person,
        qualification=rule.id,
        decider=act.by,
        reason=reason_given(reason),
    )


def decide_lift(
    history: Iterable[Event], rule: QualificationPolicy, act: Act, *, person: str, reason: str
) -> Lift:
    """A suspension ended. Raises DeciderIsPerson, ReasonMissing, NothingToLift, DatedInFuture."""
    case = _case(history, rule, act, person)
    if case.settled.who(act.by) == case.settled.who(person):
        raise DeciderIsPerson
    if case.suspended is None:
        raise NothingToLift
    return Lift(
        **stamped(act),
        person=person,
        qualification=rule.id,
        decider=act.by,
        reason=reason_given(reason),
    )


def decide_revoke(
    history: Iterable[Event], rule: QualificationPolicy, act: Act, *, person: str, reason: str
) -> Revoke:
    """A qualification taken away. Raises ReasonMissing, NothingToRevoke, DatedInFuture."""
    case = _case(history, rule, act, person)
    if case.good is None or case.revoked is not None:
        raise NothingToRevoke
    return Revoke(
        **stamped(act),
        person=person,
        qualification=rule.id,
        decider=act.by,
        reason=reason_given(reason),
    )


def _case(history: Iterable[Event], rule: QualificationPolicy, act: Act, person: str) -> Case:
    return gather(settled_before(history, act), rule, person, act.occurred_on)
