"""Edges of the rules of assessment section 5 that its table of scenarios does not reach."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from records_cast import (
    LEAD,
    POLICY,
    RULE,
    again,
    authorised,
    base,
    countered,
    countersigned,
    day,
    decided,
    merged,
    on,
    practical,
    quiz,
    training,
    use,
    without,
)

from app.records.events import (
    ContentRevised,
    Event,
    Grant,
    Lift,
    Revoke,
    Suspend,
    TrainerWithdrawn,
)
from app.records.observation import StepOutcome
from app.records.policy import NoSuchQualification, Policy
from app.records.settling import ContentConflict
from app.records.standing import Standing, standing


def ask(events: list[Event], text: str, known: str | None = None, **more) -> Standing:
    policy = Policy({LEAD: replace(RULE, **more)}) if more else POLICY
    return standing(events, policy, "W", LEAD, day(text), day(known) if known else None)


def whys(answer: Standing, event: str) -> list[str]:
    found = [entry.whys for entry in answer.not_counted if entry.event == event]
    return [why.code for reasons in found for why in reasons]


def revised(name: str, text: str, revision: int, change: str) -> ContentRevised:
    return ContentRevised(id=name, module=LEAD, revision=revision, change=change, **on(text))


# Rule 1


def test_one_id_with_other_content_is_an_error():
    other = practical("p1", "2024-01-21", "R1", "A1")
    with pytest.raises(ContentConflict, match="p1"):
        ask([*base(), other], "2024-03-10")


def test_a_conflict_recorded_later_does_not_disturb_an_earlier_day():
    late = practical("p1", "2024-01-21", "R1", "A1", recorded_at=on("2024-05-01")["recorded_at"])
    assert ask([*base(), late], "2024-03-10", known="2024-04-30").is_current


def test_another_qualification_is_refused():
    with pytest.raises(NoSuchQualification, match="other"):
        standing(base(), POLICY, "W", "other", day("2024-03-10"))


# Rule 2


def test_a_countered_counter_entry_gives_the_record_back():
    events = [*base(), countered("x1", "2024-03-20", "p2"), countered("x2", "2024-03-22", "x1")]
    assert ask(events, "2024-03-25", known="2024-03-21").status == "not-qualified"
    assert ask(events, "2024-03-25", known="2024-03-22").is_current


def test_a_counter_entry_of_the_same_instant_still_comes_after_its_target():
    for first, second in (("a", "z"), ("z", "a")):
        events = [
            *base(),
            countered(first, "2024-03-20", "p2"),
            countered(second, "2024-03-20", first),
        ]
        assert ask(events, "2024-03-25").is_current


def test_a_void_grant_suspension_and_authorisation_have_no_effect():
    assert (
        ask([*base(), countered("x", "2024-03-01", "g1")], "2024-03-10").status == "not-qualified"
    )
    held = [*base(), decided(Suspend, "h", "2024-03-02"), countered("x", "2024-03-03", "h")]
    assert ask(held, "2024-03-10").is_current
    events = [*base(), countered("x", "2024-03-03", "auth-A2", person="A2")]
    assert whys(ask(events, "2024-03-10"), "p2") == ["trainer-not-authorised"]


# Rule 3


def test_two_entries_of_one_person_count_together():
    events = [*without(base(), "p2"), practical("p2", "2024-02-10", "R2", "A2", person="W2")]
    assert ask(events, "2024-03-10").status == "not-qualified"
    events.append(merged("i1", "2024-04-01", "W", "W2"))
    assert ask(events, "2024-03-10").is_current
    assert standing(events, POLICY, "W2", LEAD, day("2024-03-10")).is_current


def test_a_merge_shows_that_somebody_signed_for_themselves():
    events = [*base(), merged("i1", "2024-04-01", "W", "A2")]
    assert whys(ask(events, "2024-05-01"), "p2") == ["self-sign-off"]


def test_two_entries_of_one_trainer_are_one_trainer():
    answer = ask([*base(), merged("i1", "2024-04-01", "A1", "A2")], "2024-05-01")
    assert [reason.code for reason in answer.reasons] == ["trainers-missing"]


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


# Rule 6


@pytest.mark.parametrize("decider", ["A1", "A2", "T1"])
def test_a_grant_by_somebody_who_made_the_evidence_does_not_stand(decider: str):
    events = [*without(base(), "g1"), decided(Grant, "g1", "2024-02-29", decider=decider)]
    assert ask(events, "2024-03-10").status == "not-qualified"


def test_a_grant_by_a_trainer_stands_on_the_evidence_of_others():
    more = practical("p3", "2024-02-12", "R3", "A3")
    grant = decided(Grant, "g1", "2024-02-29", decider="A1")
    answer = ask([*without(base(), "g1"), authorised("A3"), more, grant], "2024-03-10")
    assert answer.is_current
    assert answer.evidence == ("t1", "q1", "p2", "p3")


def test_nobody_grants_to_themselves():
    events = [*without(base(), "g1"), decided(Grant, "g1", "2024-02-29", decider="W")]
    answer = ask(events, "2024-03-10")
    assert [reason.code for reason in answer.reasons] == ["decider-is-person"]


def test_the_examiner_of_the_quiz_cannot_grant():
    events = [*without(base(), "q1"), quiz("q1", "2024-01-12", examiner="M1")]
    answer = ask(events, "2024-03-10")
    assert whys(answer, "q1") == ["decider-was-trainer"]


@pytest.mark.parametrize(("text", "stands"), [("2025-01-12", True), ("2025-01-13", False)])
def test_a_quiz_is_good_evidence_for_twelve_months(text: str, stands: bool):
    fresh = [
        practical("p3", "2024-12-01", "R3", "A1"),
        practical("p4", "2024-12-02", "R4", "A2"),
    ]
    events = [*without(base(), "g1"), *fresh, decided(Grant, "g2", text)]
    answer = ask(events, text)
    assert answer.is_current is stands
    assert whys(answer, "q1") == ([] if stands else ["too-old"])


def test_evidence_of_the_day_of_the_revocation_is_not_later():
    revoked = decided(Revoke, "r1", "2024-02-10")
    answer = ask([*base(), revoked], "2024-03-10")
    assert answer.status == "revoked"
    assert "before-revocation" in whys(answer, "p2")


def test_a_new_grant_has_no_grace_for_a_major_revision():
    answer = ask([*base(), revised("c2", "2024-02-29", 2, "major")], "2024-03-01")
    assert [reason.code for reason in answer.reasons] == ["training-outdated"]
    day_after = ask([*base(), revised("c2", "2024-03-01", 2, "major")], "2024-03-01")
    assert day_after.is_current


def test_an_editorial_revision_asks_for_nothing():
    before = ask([*base(), revised("c2", "2024-02-20", 2, "editorial")], "2024-03-10")
    after = ask([*base(), revised("c2", "2024-03-05", 2, "editorial")], "2024-08-01")
    assert before.is_current
    assert (after.status, [w.code for w in after.warnings]) == ("current", ["continuity-due"])


def test_every_module_of_a_qualification_is_needed():
    answer = ask(base(), "2024-03-10", modules=(LEAD, "shutdown"))
    assert [reason.code for reason in answer.reasons] == ["training-missing", "quiz-missing"]
    assert {reason.params["module"] for reason in answer.reasons} == {"shutdown"}
    events = [*base(), training("t2", "2024-02-01", module="shutdown")]
    events.append(quiz("q2", "2024-02-02", module="shutdown"))
    assert ask(events, "2024-03-10", modules=(LEAD, "shutdown")).is_current


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


def test_a_repair_after_the_grant_does_not_support_it():
    events = [*without(base(), "p2"), practical("p2", "2024-03-01", "R2", "A2")]
    assert ask(events, "2024-03-10").status == "not-qualified"


def test_a_grant_of_the_day_of_a_revocation_does_not_restore():
    events = [decided(Grant, "g1", "2024-03-01"), decided(Revoke, "r1", "2024-03-01")]
    nothing_needed = {"modules": (), "practicals_required": 0, "trainers_required": 0}
    assert ask(events, "2024-03-01", **nothing_needed).status == "revoked"
    assert ask(events[:1], "2024-03-01", **nothing_needed).is_current


def test_the_first_arrival_is_the_one_that_counts_as_late_or_not():
    original = base()[5]
    events = [again(original, hours=24 * 40), *base()]
    assert ask(events, "2024-05-01").is_current


def test_authorised_and_withdrawn_in_one_instant_is_withdrawn():
    gone = TrainerWithdrawn(id="a0", person="A2", qualification=LEAD, **on("2020-01-01"))
    assert whys(ask([*base(), gone], "2024-03-10"), "p2") == ["trainer-not-authorised"]


def test_an_authorisation_holds_for_both_entries_of_a_trainer():
    events = [
        *without(base(), "auth-A2"),
        authorised("A2b"),
        merged("i1", "2024-03-01", "A2", "A2b"),
    ]
    assert ask(events, "2024-03-10").is_current


def test_nobody_countersigns_a_record_about_themselves():
    late = use("u1", "2024-07-30", recorded_at=datetime(2024, 9, 20, tzinfo=UTC))
    events = [*base(), authorised("W"), late, countersigned("s1", "2024-09-25", "u1", "W")]
    assert ask(events, "2024-09-22").status == "lapsed"


@pytest.mark.parametrize(("text", "warned"), [("2024-07-11", True), ("2024-07-10", False)])
def test_a_warning_comes_thirty_days_ahead(text: str, warned: bool):
    codes = [warning.code for warning in ask(base(), text).warnings]
    assert codes == (["continuity-due"] if warned else [])


def test_a_void_record_of_another_qualification_is_not_told_here():
    other = practical("px", "2024-02-11", "R5", "A2", qualification="other")
    events = [*base(), other, countered("x1", "2024-03-20", "px")]
    assert ask(events, "2024-03-25").not_counted == ()
