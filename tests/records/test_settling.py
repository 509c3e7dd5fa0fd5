"""Edges of rules 1 to 3 of assessment section 5: known, void, the same person."""

import pytest
from records_cast import (
    LEAD,
    POLICY,
    again,
    ask,
    authorised,
    base,
    countered,
    day,
    decided,
    merged,
    on,
    practical,
    whys,
    without,
)

from app.records.events import (
    Suspend,
)
from app.records.policy import NoSuchQualification
from app.records.standing.definition import standing
from app.records.standing.settling import ContentConflict

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


def test_the_first_arrival_is_the_one_that_counts_as_late_or_not():
    original = base()[5]
    events = [again(original, hours=24 * 40), *base()]
    assert ask(events, "2024-05-01").is_current


def test_an_authorisation_holds_for_both_entries_of_a_trainer():
    events = [
        *without(base(), "auth-A2"),
        authorised("A2b"),
        merged("i1", "2024-03-01", "A2", "A2b"),
    ]
    assert ask(events, "2024-03-10").is_current


def test_a_void_record_of_another_qualification_is_not_told_here():
    other = practical("px", "2024-02-11", "R5", "A2", qualification="other")
    events = [*base(), other, countered("x1", "2024-03-20", "px")]
    assert ask(events, "2024-03-25").not_counted == ()
