"""Decisions of learning and watching: made when they may be, refused with the reason else."""

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

import pytest
from records_cast import (
    LEAD,
    NOW,
    RULE,
    act,
    authorised,
    base,
    countered,
    day,
    merged,
    observation,
    quiz,
    training,
    use,
)

from app.records.deciding import refusals
from app.records.deciding.decisions import (
    decide_countersign,
    decide_practical,
    decide_quiz,
    decide_training,
    decide_use,
)
from app.records.observation import StepOutcome


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


def test_an_act_sent_again_is_decided_as_the_first_time():
    first = watch()
    assert watch(history=[*base(), first]) == first
