"""Decisions of the safety officer: made when they may be, refused with the reason else."""

from dataclasses import replace

import pytest
from records_cast import (
    LEAD,
    POLICY,
    RULE,
    UNGRANTED,
    act,
    base,
    countered,
    decided,
    without,
)

from app.records.deciding import refusals
from app.records.deciding.decisions import (
    decide_authorise_trainer,
    decide_counter_entry,
    decide_grant,
    decide_lift,
    decide_merge,
    decide_revoke,
    decide_suspend,
    decide_withdraw_trainer,
)
from app.records.events import Grant, Suspend
from app.records.policy import Policy, QualificationPolicy


def grant(history, by: str = "M1", policy: Policy = POLICY, text: str = "2024-03-10") -> Grant:
    return decide_grant(history, policy, act(by, text), person="W", qualification=LEAD)


# Grants


def test_a_grant_names_what_it_rests_on():
    event = grant(UNGRANTED)
    assert (event.decider, event.evidence) == ("M1", ("t1", "q1", "p1", "p2"))


def test_a_grant_without_evidence_says_what_is_missing():
    with pytest.raises(refusals.EvidenceMissing) as refused:
        grant(without(UNGRANTED, "p2", "q1"))
    codes = [gap.code for gap in refused.value.places["gaps"]]
    assert codes == ["quiz-missing", "practicals-missing", "trainers-missing"]
    assert "1 of 2 supervised repairs count." in refused.value.sentence


def test_a_trainer_of_the_evidence_does_not_grant():
    for trainer in ("A1", "T1"):
        with pytest.raises(refusals.DeciderWasTrainer):
            grant(UNGRANTED, by=trainer)


def test_nobody_grants_to_themselves():
    with pytest.raises(refusals.DeciderIsPerson):
        grant(UNGRANTED, by="W")


def test_prerequisites_must_be_current_on_the_day():
    first = QualificationPolicy(id=LEAD, modules=(LEAD,))
    second = QualificationPolicy(
        id="next",
        modules=(LEAD,),
        practicals_required=0,
        trainers_required=0,
        prerequisites=(LEAD,),
    )
    policy = Policy({LEAD: first, "next": second})

    def grant_next(history):
        return decide_grant(history, policy, act("M1"), person="W", qualification="next")

    assert grant_next(base()).qualification == "next"
    with pytest.raises(refusals.PrerequisiteMissing, match=LEAD):
        grant_next(UNGRANTED)
    with pytest.raises(refusals.PrerequisiteMissing, match=LEAD):
        grant_next([*base(), decided(Suspend, "h1", "2024-03-10")])


def test_one_grant_a_day():
    with pytest.raises(refusals.AlreadyRecorded, match="g1"):
        grant(base(), text="2024-02-29")


# Suspensions and revocations


def test_suspend_lift_and_suspend_again():
    held = decide_suspend(base(), RULE, act("M1"), person="W", reason=" Unsafe work. ")
    assert held.reason == "Unsafe work."
    history = [*base(), replace(held, id="h1")]
    with pytest.raises(refusals.AlreadySuspended):
        decide_suspend(history, RULE, act("M1"), person="W", reason="Again.")
    with pytest.raises(refusals.DeciderIsPerson):
        decide_lift(history, RULE, act("W"), person="W", reason="I am fine.")
    lifted = decide_lift(history, RULE, act("M1"), person="W", reason="Talked it over.")
    with pytest.raises(refusals.NothingToLift):
        decide_lift([*history, replace(lifted, id="l1")], RULE, act("M1"), person="W", reason="x")


def test_revoking_needs_a_grant_that_is_still_there():
    gone = decide_revoke(base(), RULE, act("M1"), person="W", reason="Forged a sample.")
    for history in (UNGRANTED, [*base(), replace(gone, id="r1")]):
        with pytest.raises(refusals.NothingToRevoke):
            decide_revoke(history, RULE, act("M1"), person="W", reason="x")


@pytest.mark.parametrize("decide", [decide_suspend, decide_revoke])
def test_taking_away_needs_a_reason(decide):
    with pytest.raises(refusals.ReasonMissing):
        decide(base(), RULE, act("M1"), person="W", reason="  ")


# Trainers, content, corrections


def test_a_trainer_is_authorised_and_withdrawn():
    given = decide_authorise_trainer(base(), act("M1"), person="A3", qualification=LEAD)
    history = [*base(), replace(given, id="a3")]
    with pytest.raises(refusals.AlreadyAuthorised):
        decide_authorise_trainer(history, act("M1"), person="A3", qualification=LEAD)
    gone = decide_withdraw_trainer(
        history, act("M1"), person="A3", qualification=LEAD, reason="Left the firm."
    )
    later = replace(gone, id="w3", recorded_at=gone.recorded_at.replace(hour=19))
    with pytest.raises(refusals.NothingToWithdraw):
        decide_withdraw_trainer(
            [*history, later], act("M1"), person="A3", qualification=LEAD, reason="x"
        )


def test_nobody_authorises_themselves():
    with pytest.raises(refusals.DeciderIsPerson):
        decide_authorise_trainer(base(), act("M1"), person="M1", qualification=LEAD)


def test_a_counter_entry_takes_over_whom_it_is_about():
    event = decide_counter_entry(base(), act("M1"), target="p2", reason="Wrong person.")
    assert (event.person, event.qualification, event.target) == ("W", LEAD, "p2")


@pytest.mark.parametrize(
    ("by", "target", "reason", "refusal"),
    [
        ("M1", "p2", "", refusals.ReasonMissing),
        ("M1", "nothing", "x", refusals.NoSuchRecord),
        ("M1", "p1", "x", refusals.AlreadyVoid),
        ("W", "p2", "x", refusals.DeciderIsPerson),
    ],
)
def test_a_counter_entry_is_refused(by: str, target: str, reason: str, refusal: type[Exception]):
    history = [*base(), countered("x1", "2024-03-01", "p1")]
    with pytest.raises(refusal):
        decide_counter_entry(history, act(by), target=target, reason=reason)


def test_merging_is_done_once_and_by_a_third_person():
    event = decide_merge(base(), act("M1"), person="W", merged="W2", reason="Entered twice.")
    history = [*base(), replace(event, id="i1")]
    with pytest.raises(refusals.AlreadyMerged):
        decide_merge(history, act("M1"), person="W2", merged="W", reason="x")
    with pytest.raises(refusals.SamePerson):
        decide_merge(base(), act("M1"), person="W", merged="W", reason="x")
    with pytest.raises(refusals.DeciderIsPerson):
        decide_merge(base(), act("W"), person="W", merged="W2", reason="x")


def test_a_grant_sent_again_is_decided_as_the_first_time():
    given = grant(UNGRANTED)
    assert grant([*UNGRANTED, given]) == given
