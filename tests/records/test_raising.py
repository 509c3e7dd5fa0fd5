"""What raises a standing, on whatever day, takes two people. The days themselves: test_rises.py."""

from dataclasses import replace

import pytest
from records_cast import LEAD, POLICY, act, ask, base, countered, on, use

from app.records.deciding import refusals
from app.records.deciding.decisions import (
    alone,
    decide_confirm,
    decide_counter_entry,
    decide_merge,
    decide_propose,
)
from app.records.deciding.raising import is_better
from app.records.events import CounterEntry, IdentityMerged, Lift, Suspend

SUSPENDED = Suspend(
    id="s1", person="W", qualification=LEAD, decider="M1", reason="x", **on("2024-03-05")
)


def void(history, target, by="M1", **more):
    made = decide_counter_entry(history, act(by, **more), target=target, reason="Wrong.")
    return alone(history, act(by, **more), made, POLICY)


def test_what_takes_work_away_or_changes_nothing_one_may_do_alone():
    history = base()
    for target in ("g1", "p1", "q1"):
        assert void(history, target).target == target


def test_what_lets_somebody_work_again_takes_two():
    with pytest.raises(refusals.NeedsSecondOfficer):
        void([*base(), SUSPENDED], "s1")


def test_so_does_taking_back_a_correction():
    history = [*base(), void(base(), "g1", id="x1")]
    with pytest.raises(refusals.NeedsSecondOfficer):
        void(history, "x1", id="x2")


def test_and_a_merge_that_brings_what_was_missing():
    own, other = [], []
    for event in base():
        is_moved = getattr(event, "person", "") == "W" and event.id in ("p1", "g1")
        (other if is_moved else own).append(replace(event, person="W2") if is_moved else event)
    history = [*own, *other]
    merge = decide_merge(history, act("M1"), person="W", merged="W2", reason="One man.")
    with pytest.raises(refusals.NeedsSecondOfficer):
        alone(history, act("M1"), merge, POLICY)
    poor = decide_merge(base(), act("M1"), person="W", merged="W9", reason="One man.")
    assert alone(base(), act("M1"), poor, POLICY) == poor


def proposed(history, by="M1"):
    return decide_propose(
        history, act(by, id="y1"), correction="counter-entry", about="s1", reason="Mixed up."
    )


def test_a_proposal_changes_no_standing_and_a_confirmed_one_does():
    history = [*base(), SUSPENDED]
    history += [proposed(history)]
    assert ask(history, "2024-03-10").status == "suspended"
    entry = decide_confirm(history, act("M2"), proposal=history[-1], is_closed=False)
    assert isinstance(entry, CounterEntry)
    assert (entry.target, entry.reason) == ("s1", "Mixed up.")
    assert (entry.proposal, entry.proposed_by, entry.recorded_by) == ("y1", "M1", "M2")
    assert ask([*history, entry], "2024-03-10").status == "current"


def test_nobody_confirms_their_own_under_whatever_entry():
    history = [*base(), SUSPENDED]
    proposal = proposed(history)
    same = IdentityMerged(id="m", person="M1", merged="M3", reason="x", **on("2024-03-06"))
    for by, more in (("M1", []), ("M3", [same])):
        with pytest.raises(refusals.SecondIsFirst):
            decide_confirm([*history, *more, proposal], act(by), proposal=proposal, is_closed=False)


def test_nor_does_the_person_it_is_about():
    history = [*base(), SUSPENDED]
    with pytest.raises(refusals.DeciderIsPerson):
        decide_confirm(history, act("W"), proposal=proposed(history), is_closed=False)
    with pytest.raises(refusals.DeciderIsPerson):
        proposed(history, by="W")


def test_a_closed_proposal_is_not_confirmed():
    history = [*base(), SUSPENDED]
    with pytest.raises(refusals.ProposalClosed):
        decide_confirm(history, act("M2"), proposal=proposed(history), is_closed=True)


@pytest.mark.parametrize(
    ("before", "after", "is_up"),
    [
        ("revoked", "not-qualified", True),
        ("suspended", "current", True),
        ("update-needed", "not-qualified", False),
        ("current", "lapsed", False),
        ("expired", "lapsed", False),
    ],
)
def test_statuses_are_weighed(before, after, is_up):
    assert is_better(after, before) is is_up


def test_a_week_in_the_past_takes_two_as_well():
    # An inspector may ask about that week; today nothing would be another.
    lifted = Lift(id="l1", person="W", qualification=LEAD, decider="M1", **on("2024-03-07"))
    history = [*base(), SUSPENDED, lifted]
    assert ask(history, "2024-03-10").status == "current"
    with pytest.raises(refusals.NeedsSecondOfficer):
        void(history, "s1")


def test_lasting_longer_is_being_better_on_a_later_day():
    history = [*base(), use("u1", "2024-03-05"), countered("x1", "2024-03-06", "u1")]
    assert ask(history, "2024-03-10").status == "current"
    with pytest.raises(refusals.NeedsSecondOfficer):
        void(history, "x1", id="x2")
