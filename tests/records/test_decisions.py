"""Each decision: made when it may be, refused with its reason when it may not."""

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest
from records_cast import (
    LEAD,
    POLICY,
    RULE,
    authorised,
    base,
    countered,
    day,
    decided,
    merged,
    observation,
    on,
    quiz,
    training,
    use,
    without,
)

from app.records import refusals
from app.records.decisions import (
    Act,
    decide_authorise_trainer,
    decide_counter_entry,
    decide_countersign,
    decide_grant,
    decide_lift,
    decide_merge,
    decide_practical,
    decide_quiz,
    decide_revise_content,
    decide_revoke,
    decide_suspend,
    decide_training,
    decide_use,
    decide_withdraw_trainer,
)
from app.records.events import ContentRevised, Grant, Suspend
from app.records.observation import StepOutcome
from app.records.policy import Policy, QualificationPolicy

NOW = datetime(2024, 3, 10, 18, tzinfo=UTC)
UNGRANTED = without(base(), "g1")


def act(by: str, text: str = "2024-03-10", **more: Any) -> Act:
    values: dict[str, Any] = {"id": "new", "by": by, "now": NOW, "zone": "UTC"}
    return Act(**{**values, "occurred_on": day(text), **more})


def grant(history, by: str = "M1", policy: Policy = POLICY, text: str = "2024-03-10") -> Grant:
    return decide_grant(history, policy, act(by, text), person="W", qualification=LEAD)


def watch(by: str = "A1", text: str = "2024-03-10", job: str = "R9", **more: Any):
    values = {"person": "W", "job": job, "observation": observation(), "passed": True, **more}
    return decide_practical(values.pop("history", base()), RULE, act(by, text), **values)


# Training and quizzes


def test_training_is_recorded():
    event = decide_training(base(), act("W"), person="W", module=LEAD, revision=1)
    assert (event.person, event.recorded_at, event.recorded_by) == ("W", NOW, "W")


def test_nobody_trains_themselves():
    with pytest.raises(refusals.SelfSignOff):
        decide_training(base(), act("W"), person="W", module=LEAD, revision=1, trainer="W")


def test_the_same_training_on_the_same_day_is_recorded_once():
    history = [*base(), training("t9", "2024-03-10")]
    with pytest.raises(refusals.AlreadyRecorded, match="t9"):
        decide_training(history, act("W"), person="W", module=LEAD, revision=1)


@pytest.mark.parametrize(("right", "asked"), [(11, 10), (-1, 10), (0, 0)])
def test_a_quiz_result_must_be_possible(right: int, asked: int):
    with pytest.raises(refusals.ImpossibleCount, match=str(right)):
        decide_quiz(
            [], act("W"), person="W", module=LEAD, revision=1,
            right=right, asked=asked, passed=False, attempt="a1",
        )  # fmt: skip


def test_an_attempt_is_recorded_once():
    history = [quiz("q9", "2024-03-09", attempt="a1")]
    with pytest.raises(refusals.AlreadyRecorded, match="q9"):
        decide_quiz(
            history, act("W"), person="W", module=LEAD, revision=1,
            right=9, asked=10, passed=True, attempt="a1",
        )  # fmt: skip


# Supervised repairs and jobs


def test_a_trainer_signs_a_repair():
    event = watch()
    assert (event.trainer, event.job, event.passed) == ("A1", "R9", True)
    assert [step.step for step in event.critical] == ["ratio-in-tolerance"]


def test_nobody_signs_off_themselves():
    with pytest.raises(refusals.SelfSignOff):
        watch("W", history=[*base(), authorised("W")])
    with pytest.raises(refusals.SelfSignOff):
        watch("A1", history=[*base(), merged("i1", "2024-03-01", "W", "A1")])


def test_only_the_trainer_who_watched_signs():
    with pytest.raises(refusals.SignedBySomeoneElse):
        watch("A1", trainer="A2")


def test_the_trainer_must_be_authorised_on_the_day_of_the_repair():
    with pytest.raises(refusals.TrainerNotAuthorised, match="2024-03-10"):
        watch("A3")
    history = [*base(), authorised("A3", "2024-03-02")]
    with pytest.raises(refusals.TrainerNotAuthorised):
        watch("A3", "2024-03-01", history=history)
    assert watch("A3", "2024-03-02", history=history).trainer == "A3"


def test_a_repair_is_not_dated_in_the_future():
    with pytest.raises(refusals.DatedInFuture, match="2024-03-11"):
        watch(text="2024-03-11")


def test_the_future_begins_at_the_site():
    # 18:00 UTC on 10 March is already 11 March in Auckland.
    there = act("A1", "2024-03-11", zone="Pacific/Auckland")
    event = decide_use(base(), RULE, there, person="W", job="R9")
    assert event.occurred_on == day("2024-03-11")


def test_a_job_that_counts_is_not_signed_again():
    with pytest.raises(refusals.AlreadyRecorded, match="p1"):
        watch(job="R1")
    assert watch(job="R1", passed=False).passed is False
    history = [*base(), use("u1", "2024-03-01", job="R7")]
    with pytest.raises(refusals.AlreadyRecorded, match="u1"):
        decide_use(history, RULE, act("A1"), person="W", job="R7")


def test_a_critical_step_that_does_not_apply_needs_a_reason():
    step = StepOutcome(step="both-sides-seen", outcome="does-not-apply")
    with pytest.raises(refusals.StepReasonMissing, match="both-sides-seen"):
        watch(observation=observation(items=(*observation().items, step)))
    said = replace(step, reason="Access from one side only.")
    assert watch(observation=observation(items=(*observation().items, said)))


def test_without_any_critical_step_it_is_no_supervised_repair():
    step = StepOutcome(step="only-one", outcome="does-not-apply", reason="No pump here.")
    with pytest.raises(refusals.NoCriticalStep):
        watch(observation=observation(items=(step,)))


# Countersigning


def late_use():
    return use("u1", "2024-02-01", recorded_at=datetime(2024, 3, 1, 18, tzinfo=UTC))


def test_another_trainer_countersigns_a_late_record():
    event = decide_countersign([*base(), late_use()], RULE, act("A2"), target="u1")
    assert (event.trainer, event.person, event.target) == ("A2", "W", "u1")


@pytest.mark.parametrize(
    ("by", "target", "refusal"),
    [
        ("A1", "u1", refusals.SelfSignOff),
        ("W", "u1", refusals.SelfSignOff),
        ("A3", "u1", refusals.TrainerNotAuthorised),
        ("A2", "p1", refusals.NotLate),
        ("A2", "q1", refusals.NoSuchRecord),
        ("A2", "nothing", refusals.NoSuchRecord),
    ],
)
def test_a_countersign_is_refused(by: str, target: str, refusal: type[Exception]):
    with pytest.raises(refusal):
        decide_countersign([*base(), late_use()], RULE, act(by), target=target)


def test_the_fourteenth_day_is_not_late():
    on_time = use("u1", "2024-02-01", recorded_at=datetime(2024, 2, 15, 18, tzinfo=UTC))
    with pytest.raises(refusals.NotLate):
        decide_countersign([*base(), on_time], RULE, act("A2"), target="u1")


def test_a_void_record_is_not_countersigned():
    history = [*base(), late_use(), countered("x1", "2024-03-02", "u1")]
    with pytest.raises(refusals.AlreadyVoid):
        decide_countersign(history, RULE, act("A2"), target="u1")


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


def test_revisions_go_up():
    history = [ContentRevised(id="c2", module=LEAD, revision=2, change="major", **on("2024-03-01"))]
    with pytest.raises(refusals.RevisionNotNew, match="2"):
        decide_revise_content(history, act("M1"), module=LEAD, revision=2, change="editorial")
    event = decide_revise_content(history, act("M1"), module=LEAD, revision=3, change="editorial")
    assert event.revision == 3


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


# Sending again


def test_an_act_sent_again_is_decided_as_the_first_time():
    first = watch()
    assert watch(history=[*base(), first]) == first
    given = grant(UNGRANTED)
    assert grant([*UNGRANTED, given]) == given
