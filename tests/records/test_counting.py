"""Edges of rule 5 of assessment section 5: what counts."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from records_cast import (
    LEAD,
    ask,
    authorised,
    base,
    countersigned,
    day,
    on,
    practical,
    use,
    whys,
    without,
)

from app.records.events import (
    TrainerWithdrawn,
)
from app.records.observation import StepOutcome

# Rule 5


@pytest.mark.parametrize(("days", "counts"), [(14, True), (15, False)])
def test_fourteen_days_are_not_late(days: int, counts: bool):
    arrival = datetime(2024, 2, 10 + days, 18, tzinfo=UTC)
    late = practical("p2", "2024-02-10", "R2", "A2", recorded_at=arrival)
    answer = ask([*without(base(), "p2"), late], "2024-03-10")
    assert answer.is_current is counts


def test_lateness_is_counted_in_days_of_the_site():
    # 05:00 UTC on 25 February is 23:00 on the 24th, the fourteenth day, in Chicago.
    arrival = datetime(2024, 2, 25, 5, tzinfo=UTC)
    late = practical("p2", "2024-02-10", "R2", "A2", recorded_at=arrival, zone="America/Chicago")
    assert ask([*without(base(), "p2"), late], "2024-03-10").is_current
    here = replace(late, zone="UTC")
    assert not ask([*without(base(), "p2"), here], "2024-03-10").is_current


def test_a_countersign_by_somebody_not_authorised_is_nothing():
    late = use("u1", "2024-07-30", recorded_at=datetime(2024, 9, 20, tzinfo=UTC))
    events = [*base(), late, countersigned("s1", "2024-09-25", "u1", "A3")]
    assert ask(events, "2024-09-22").status == "lapsed"
    assert ask([*events, authorised("A3", "2024-09-26")], "2024-09-22").status == "lapsed"
    assert ask([*events, authorised("A3", "2024-09-25")], "2024-09-22").is_current


@pytest.mark.parametrize(("recorded", "counts"), [(9, True), (8, False)])
def test_one_day_ahead_is_a_matter_of_zones_two_are_not(recorded: int, counts: bool):
    early = datetime(2024, 2, recorded, 18, tzinfo=UTC)
    ahead = practical("p2", "2024-02-10", "R2", "A2", recorded_at=early)
    answer = ask([*without(base(), "p2"), ahead], "2024-03-10")
    assert whys(answer, "p2") == ([] if counts else ["dated-ahead"])


def test_a_trainer_withdrawn_that_day_may_no_longer_sign():
    gone = TrainerWithdrawn(id="w", person="A2", qualification=LEAD, **on("2024-02-10"))
    assert whys(ask([*base(), gone], "2024-03-10"), "p2") == ["trainer-not-authorised"]


@pytest.mark.parametrize(
    ("outcome", "code"),
    [
        ("done-when-prompted", "critical-step-not-done"),
        ("not-done", "critical-step-not-done"),
        ("not-seen", "critical-step-not-done"),
        ("does-not-apply", "no-critical-step-seen"),
    ],
)
def test_a_critical_step_is_done_alone_or_it_does_not_count(outcome: str, code: str):
    step = StepOutcome(step="ratio-in-tolerance", outcome=outcome)
    one = practical("p2", "2024-02-10", "R2", "A2", critical=(step,))
    assert whys(ask([*without(base(), "p2"), one], "2024-03-10"), "p2") == [code]


def test_a_critical_step_out_of_tolerance_does_not_count():
    step = StepOutcome(step="ratio-in-tolerance", outcome="done", rule_met=False)
    one = practical("p2", "2024-02-10", "R2", "A2", critical=(step,))
    answer = ask([*without(base(), "p2"), one], "2024-03-10")
    assert whys(answer, "p2") == ["critical-step-out-of-tolerance"]


def test_a_repair_and_a_job_on_the_same_job_both_count():
    answer = ask([*base(), use("u1", "2024-03-01", job="R2")], "2024-03-10")
    assert answer.continuity_due_on == day("2024-09-01")


def test_a_second_job_record_on_one_job_does_not_count():
    events = [*base(), use("u1", "2024-03-01", job="R7"), use("u2", "2024-03-05", job="R7")]
    answer = ask(events, "2024-03-10")
    assert answer.continuity_due_on == day("2024-09-01")
    assert whys(answer, "u2") == ["same-job"]


def test_a_failed_repair_does_not_use_up_its_job():
    failed = practical("p0", "2024-02-05", "R2", "A2", passed=False)
    assert ask([*base(), failed], "2024-03-10").is_current


def test_authorised_and_withdrawn_in_one_instant_is_withdrawn():
    gone = TrainerWithdrawn(id="a0", person="A2", qualification=LEAD, **on("2020-01-01"))
    assert whys(ask([*base(), gone], "2024-03-10"), "p2") == ["trainer-not-authorised"]


def test_nobody_countersigns_a_record_about_themselves():
    late = use("u1", "2024-07-30", recorded_at=datetime(2024, 9, 20, tzinfo=UTC))
    events = [*base(), authorised("W"), late, countersigned("s1", "2024-09-25", "u1", "W")]
    assert ask(events, "2024-09-22").status == "lapsed"
