"""What a crew member has shown on a day, by the definition of the standing itself.

Rules for what everyone must show: ours, in content/crew.yaml; the standings: assessment section 5.
"""

from dataclasses import replace

from records_cast import (
    LEAD,
    POLICY,
    RULE,
    base,
    countered,
    day,
    decided,
    quiz,
    revised,
    training,
)

from app.curriculum.crew import ForEveryone
from app.curriculum.text import Text
from app.records.boards.crew_members import crew_members
from app.records.events import Event, Revoke, Suspend
from app.records.policy import Policy
from app.records.standing.settling import settle

# In the cast the qualification's only module has its name.
GEAR = ForEveryone(module=LEAD, title=Text({"en": "Gear"}), quiz_months=12)


def member(events: list[Event], on: str, policy: Policy = POLICY, known: str = ""):
    settled = settle(events, day(known) if known else None)
    (found,) = crew_members(settled, policy, [GEAR], ["W"], day(on))
    return found


def codes(found) -> list[str]:
    return [reason.code for reason in found.gaps[LEAD]]


def test_a_current_qualification_shows_what_everyone_must():
    found = member(base(), "2024-03-10")
    assert found.holds == (LEAD,)
    assert found.is_ready
    # Also when the quiz itself is older than a fresh one might be: 26 months after the quiz.
    years = Policy({LEAD: replace(RULE, validity_months=60, continuity_months=None)})
    assert member(base(), "2026-03-10", years).is_ready


def test_without_one_training_and_a_fresh_quiz_show_it():
    learnt = [training("t1", "2024-01-10"), quiz("q1", "2024-01-12")]
    assert member(learnt, "2025-01-12").is_ready  # the last day of twelve months
    assert codes(member(learnt, "2025-01-13")) == ["quiz-missing"]
    assert codes(member(learnt[:1], "2024-02-01")) == ["quiz-missing"]
    assert codes(member([], "2024-02-01")) == ["training-missing", "quiz-missing"]
    failed = [training("t1", "2024-01-10"), quiz("q1", "2024-01-12", passed=False)]
    assert codes(member(failed, "2024-02-01")) == ["quiz-missing"]


def test_the_training_must_be_at_the_revision_in_force():
    learnt = [training("t1", "2024-01-10"), quiz("q1", "2024-01-12")]
    changed = [*learnt, revised("c2", "2024-02-01", 2, "major")]
    assert codes(member(changed, "2024-02-01")) == ["training-outdated"]
    assert member(changed, "2024-01-31").is_ready
    again = [*changed, training("t2", "2024-02-05", revision=2)]
    assert member(again, "2024-02-05").is_ready


def test_whoever_is_suspended_or_revoked_has_not_shown_it_whatever_they_passed():
    held = [*base(), decided(Suspend, "s1", "2024-03-01")]
    found = member(held, "2024-03-01")
    assert (found.holds, codes(found)) == ((), ["suspended"])
    gone = [*base(), decided(Revoke, "r1", "2024-03-01"), quiz("q2", "2024-03-05")]
    assert codes(member(gone, "2024-03-10")) == ["revoked"]


def test_it_is_asked_as_known_on_a_day():
    events = [*base(), countered("x1", "2024-04-01", "t1")]
    assert member(events, "2024-03-10", known="2024-03-31").is_ready
    assert not member(events, "2024-03-10").is_ready
