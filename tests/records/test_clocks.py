"""Edges of rules 7 to 11 of assessment section 5: clocks, holds, precedence."""

import pytest
from records_cast import (
    ask,
    base,
    day,
    decided,
    practical,
    quiz,
    revised,
    training,
    use,
    without,
)

from app.records.events import (
    Grant,
    Lift,
    Revoke,
    Suspend,
)

# Rules 7 and 8


def test_a_second_grant_runs_from_its_own_day():
    renewal = [
        practical("p3", "2024-12-01", "R3", "A1"),
        practical("p4", "2024-12-02", "R4", "A2"),
        quiz("q2", "2024-12-03"),
        decided(Grant, "g2", "2024-12-04"),
    ]
    assert ask([*base(), *renewal], "2024-12-10").last_good_day == day("2026-12-04")


def test_a_repair_heals_a_lapse_and_leaves_the_validity_alone():
    events = [*base(), practical("p3", "2024-09-01", "R3", "A1")]
    assert ask(events, "2024-08-31").status == "lapsed"
    healed = ask(events, "2024-09-01")
    assert healed.is_current
    assert healed.last_good_day == day("2026-02-28")
    assert healed.continuity_due_on == day("2025-03-01")


def test_no_limits_where_the_policy_sets_none():
    answer = ask(base(), "2040-01-01", validity_months=None, continuity_months=None)
    assert answer.is_current
    assert (answer.last_good_day, answer.continuity_due_on) == (None, None)


# Rule 9


def test_the_grace_runs_from_the_first_revision_missed():
    events = [
        *base(),
        revised("c2", "2024-05-01", 2, "major"),
        revised("c3", "2024-05-25", 3, "major"),
    ]
    answer = ask(events, "2024-06-05")
    assert answer.status == "update-needed"
    assert answer.missing[0].params["revision"] == 3
    trained = [*events, training("t2", "2024-05-20", revision=2)]
    assert ask(trained, "2024-06-05").is_current  # grace for revision 3 until 24 June
    assert ask(trained, "2024-06-25").status == "update-needed"


# Rules 10 and 11


def test_the_day_of_the_lift_is_good_and_a_new_suspension_counts_again():
    held = [*base(), decided(Suspend, "h1", "2024-03-05"), decided(Lift, "l1", "2024-03-08")]
    assert [ask(held, f"2024-03-0{d}").status for d in (4, 5, 7, 8)] == [
        "current",
        "suspended",
        "suspended",
        "current",
    ]
    again = [*held, decided(Suspend, "h2", "2024-03-09")]
    assert ask(again, "2024-03-09").status == "suspended"


def test_revoked_comes_before_suspended_before_expired_before_lapsed():
    everything = [
        *base(),
        decided(Suspend, "h1", "2024-03-05"),
        decided(Revoke, "r1", "2024-03-06"),
    ]
    found = ask(everything, "2027-01-01")
    assert [reason.code for reason in found.reasons] == [
        "revoked",
        "suspended",
        "expired",
        "lapsed",
    ]


def test_somebody_suspended_before_any_grant_is_suspended():
    answer = ask([decided(Suspend, "h1", "2024-03-05")], "2024-03-06")
    assert answer.status == "suspended"
    assert [reason.code for reason in answer.reasons] == ["suspended", "not-granted"]


def test_nobody_knows_the_person():
    answer = ask([], "2024-03-06")
    assert answer.status == "not-qualified"
    assert [gap.code for gap in answer.missing] == [
        "training-missing",
        "quiz-missing",
        "practicals-missing",
        "trainers-missing",
        "grant-needed",
    ]


@pytest.mark.parametrize(("text", "moves_on"), [("2024-08-10", True), ("2024-08-11", False)])
def test_a_job_on_the_last_good_day_moves_it_on(text: str, moves_on: bool):
    answer = ask([*base(), use("u1", text)], "2024-09-01")
    assert answer.is_current is moves_on


def test_continuity_starts_at_the_latest_repair_behind_the_grant():
    events = [
        *without(base(), "p2", "g1"),
        use("u1", "2024-08-15"),
        practical("p2", "2024-09-01", "R2", "A2"),
        decided(Grant, "g1", "2024-09-10"),
    ]
    answer = ask(events, "2024-09-10")
    assert answer.continuity_due_on == day("2025-03-01")
    assert answer.not_counted == ()


@pytest.mark.parametrize(("text", "warned"), [("2024-07-11", True), ("2024-07-10", False)])
def test_a_warning_comes_thirty_days_ahead(text: str, warned: bool):
    codes = [warning.code for warning in ask(base(), text).warnings]
    assert codes == (["continuity-due"] if warned else [])
