"""A record from a phone reported lost: kept, flagged, and of no weight until countersigned."""

from dataclasses import replace

import pytest
from records_cast import (
    LEAD,
    RULE,
    act,
    ask,
    authorised,
    base,
    countered,
    countersigned,
    observation,
    practical,
    use,
    whys,
    without,
)

from app.records.deciding.decisions import decide_countersign, decide_practical
from app.records.deciding.refusals import NotLate, SelfSignOff, TrainerNotAuthorised
from app.records.events import Countersign
from app.records.ledger.columns import columns_of, light_event
from app.records.ledger.encoding import data_of, event_of

FLAG = "device-revoked"
FLAGGED = practical("p2", "2024-02-10", "R2", "A2", flag=FLAG)
HISTORY = [*without(base(), "p2"), FLAGGED]


def test_it_does_not_count_though_it_came_the_same_day():
    answer = ask(HISTORY, "2024-03-10")
    assert answer.status == "not-qualified"
    assert whys(answer, "p2") == [FLAG]


def test_another_trainers_word_makes_it_count_from_its_own_day():
    events = [*HISTORY, countersigned("s1", "2024-03-20", "p2", "A1")]
    assert ask(events, "2024-03-10").is_current
    assert not ask(events, "2024-03-10", known="2024-03-15").is_current


@pytest.mark.parametrize("trainer", ["A2", "A3", "W"])
def test_the_word_of_who_signed_it_or_is_not_authorised_is_nothing(trainer: str):
    events = [*HISTORY, countersigned("s1", "2024-03-01", "p2", trainer)]
    assert whys(ask(events, "2024-03-10"), "p2") == [FLAG]


def test_a_countersign_made_void_counts_no_more():
    events = [*HISTORY, countersigned("s1", "2024-03-01", "p2", "A1")]
    voided = [*events, countered("c1", "2024-03-05", "s1")]
    assert ask(events, "2024-03-10").is_current
    assert whys(ask(voided, "2024-03-10"), "p2") == [FLAG]


def test_late_and_flagged_both_are_said_and_one_word_heals_both():
    late = replace(FLAGGED, recorded_at=FLAGGED.recorded_at.replace(month=3))
    events = [*without(base(), "p2"), late]
    assert whys(ask(events, "2024-04-10"), "p2") == ["recorded-late", FLAG]
    healed = [*events, countersigned("s1", "2024-03-20", "p2", "A1")]
    assert whys(ask(healed, "2024-04-10"), "p2") == []


def test_a_flagged_verified_job_moves_no_continuity():
    events = [*base(), use("u1", "2024-07-01", flag=FLAG)]
    assert ask(events, "2024-09-01").status == "lapsed"
    assert ask([*events, countersigned("s1", "2024-07-02", "u1", "A2")], "2024-09-01").is_current


def test_it_may_be_countersigned_by_who_may_and_by_nobody_else():
    rule = replace(RULE, late_entry_days=14)
    history = [*HISTORY, authorised("A1")]
    made = decide_countersign(history, rule, act("A1"), target="p2")
    assert isinstance(made, Countersign)
    with pytest.raises(SelfSignOff):
        decide_countersign(history, rule, act("A2"), target="p2")
    with pytest.raises(TrainerNotAuthorised):
        decide_countersign(history, rule, act("A9"), target="p2")
    with pytest.raises(NotLate):
        decide_countersign(base(), rule, act("A2"), target="p1")


def test_the_decision_carries_the_flag_and_every_form_keeps_it():
    made = decide_practical(
        HISTORY, RULE, act("A1"), person="W", job="R9", observation=observation(), passed=True,
        flag=FLAG,
    )  # fmt: skip
    assert made.flag == FLAG
    assert event_of(data_of(made)) == made
    columns = {"module": "", "revision": None, "target": "", "change": "", "recorded_by": ""}
    light = light_event({**columns, **columns_of(made)})
    assert (light.flag, light.qualification) == (FLAG, LEAD)


def test_a_record_written_before_there_were_flags_has_none():
    stored = data_of(practical("p9", "2024-02-10", "R2", "A2", observation=observation()))
    del stored["flag"]
    for name in ("photos", "device"):
        del stored["observation"][name]
    read = event_of(stored)
    assert read.flag == ""
    assert read.observation.device is None
