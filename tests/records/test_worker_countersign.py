"""The watched person's own word: asked for or required by the rule, given once, by nobody else."""

from dataclasses import replace

import pytest
from records_cast import LEAD, RULE, act, ask, base, countered, merged, on, practical, whys

from app.records.deciding.decisions import decide_worker_countersign
from app.records.deciding.refusals import (
    AlreadyRecorded,
    AlreadyVoid,
    DatedInFuture,
    NoSuchRecord,
    NotTheWorker,
    WorkerNotAsked,
)
from app.records.events import WorkerCountersign
from app.records.ledger.columns import columns_of, light_event

MISSING = "worker-countersign-missing"
ASKED = replace(RULE, worker_countersign="asked")
REQUIRED = {"worker_countersign": "required"}


def confirmed(name: str, text: str, target: str, person: str = "W") -> WorkerCountersign:
    return WorkerCountersign(id=name, person=person, target=target, **on(text))


BOTH = [confirmed("k1", "2024-03-05", "p1"), confirmed("k2", "2024-03-06", "p2")]


@pytest.mark.parametrize("asked", ["off", "asked"])
def test_where_it_is_not_required_nothing_hangs_on_it(asked: str):
    assert ask(base(), "2024-03-10", worker_countersign=asked).is_current
    assert ask([*base(), *BOTH], "2024-03-10", worker_countersign=asked).is_current


def test_where_it_is_required_a_repair_counts_only_with_it():
    answer = ask(base(), "2024-03-10", **REQUIRED)
    assert answer.status == "not-qualified"
    assert whys(answer, "p1") == whys(answer, "p2") == [MISSING]
    half = ask([*base(), BOTH[0]], "2024-03-10", **REQUIRED)
    assert whys(half, "p1") == []
    assert whys(half, "p2") == [MISSING]
    assert ask([*base(), *BOTH], "2024-03-10", **REQUIRED).is_current


def test_it_works_from_the_day_it_is_known_also_for_days_before():
    events = [*base(), *BOTH]
    assert ask(events, "2024-03-01", **REQUIRED).is_current
    assert not ask(events, "2024-03-10", known="2024-03-05", **REQUIRED).is_current
    assert ask(events, "2024-03-10", known="2024-03-06", **REQUIRED).is_current


def test_the_word_of_somebody_else_is_nothing():
    other = confirmed("k2", "2024-03-06", "p2", person="A2")
    assert whys(ask([*base(), BOTH[0], other], "2024-03-10", **REQUIRED), "p2") == [MISSING]


def test_made_void_it_counts_no_more():
    events = [*base(), *BOTH, countered("c1", "2024-03-08", "k2")]
    assert whys(ask(events, "2024-03-10", **REQUIRED), "p2") == [MISSING]


def test_a_person_entered_twice_is_one():
    as_other = confirmed("k2", "2024-03-06", "p2", person="W2")
    events = [*base(), BOTH[0], as_other]
    assert not ask(events, "2024-03-10", **REQUIRED).is_current
    assert ask(
        [*events, merged("m1", "2024-03-09", "W", "W2")], "2024-03-10", **REQUIRED
    ).is_current


def decided(events, by: str, target: str = "p2", rule=ASKED):
    return decide_worker_countersign(events, rule, act(by), target=target)


def test_the_decision_names_the_repair_and_the_person():
    made = decided(base(), "W")
    assert (made.kind, made.person, made.qualification, made.target, made.recorded_by) == (
        "worker-countersign", "W", LEAD, "p2", "W",
    )  # fmt: skip
    assert light_event({**dict.fromkeys(columns_of(made)), **columns_of(made)}) == made


@pytest.mark.parametrize(
    ("events", "by", "target", "rule", "refusal"),
    [
        (base(), "A2", "p2", ASKED, NotTheWorker),
        (base(), "W", "nothing", ASKED, NoSuchRecord),
        (base(), "W", "q1", ASKED, NoSuchRecord),
        (base(), "W", "p2", replace(RULE, id="other"), NoSuchRecord),
        (base(), "W", "p2", RULE, WorkerNotAsked),
        ([*base(), countered("c1", "2024-03-01", "p2")], "W", "p2", ASKED, AlreadyVoid),
        ([*base(), *BOTH], "W", "p2", ASKED, AlreadyRecorded),
    ],
)
def test_what_is_refused(events, by, target, rule, refusal):
    with pytest.raises(refusal):
        decided(events, by, target, rule)


def test_not_for_a_day_to_come():
    with pytest.raises(DatedInFuture):
        decide_worker_countersign(base(), ASKED, act("W", "2026-03-10"), target="p2")


def test_a_repair_that_was_not_passed_may_be_confirmed_too():
    failed = practical("p3", "2024-03-01", "R3", "A1", passed=False)
    assert decided([*base(), failed], "W", "p3").target == "p3"
