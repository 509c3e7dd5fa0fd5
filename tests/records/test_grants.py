"""Edges of rule 6 of assessment section 5: when a grant stands."""

import pytest
from records_cast import (
    LEAD,
    ask,
    authorised,
    base,
    decided,
    practical,
    quiz,
    revised,
    training,
    whys,
    without,
)

from app.records.events import (
    Grant,
    Revoke,
)

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


def test_a_repair_after_the_grant_does_not_support_it():
    events = [*without(base(), "p2"), practical("p2", "2024-03-01", "R2", "A2")]
    assert ask(events, "2024-03-10").status == "not-qualified"


def test_a_grant_of_the_day_of_a_revocation_does_not_restore():
    events = [decided(Grant, "g1", "2024-03-01"), decided(Revoke, "r1", "2024-03-01")]
    nothing_needed = {"modules": (), "practicals_required": 0, "trainers_required": 0}
    assert ask(events, "2024-03-01", **nothing_needed).status == "revoked"
    assert ask(events[:1], "2024-03-01", **nothing_needed).is_current
