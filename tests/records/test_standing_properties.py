"""The four properties listed under assessment section 5, on random histories."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from records_cast import LEAD, POLICY

from app.records.events import (
    ContentRevised,
    CounterEntry,
    Countersign,
    Event,
    Grant,
    IdentityMerged,
    Lift,
    Practical,
    Quiz,
    Revoke,
    Suspend,
    TrainerAuthorised,
    TrainerWithdrawn,
    Training,
    Use,
)
from app.records.ledger.columns import LIGHT, columns_of, light_event
from app.records.observation import StepOutcome
from app.records.standing.definition import Standing, standing

START = date(2024, 1, 1)
# From best to worst for the person and the work.
RANK = (
    "current", "update-needed", "lapsed", "expired", "not-qualified", "suspended", "revoked",
)  # fmt: skip
PEOPLE = st.sampled_from(["W", "W2"])
TRAINERS = st.sampled_from(["A1", "A2", "A3", "W", "M1"])
DAYS = st.integers(0, 1100).map(lambda n: START + timedelta(days=n))


def good_base() -> list[Event]:
    """Enough to be current often: three trainers, training, quiz, three repairs, a grant."""

    def at(n: int) -> dict[str, Any]:
        day = START + timedelta(days=n)
        arrival = datetime(day.year, day.month, day.day, 18, tzinfo=UTC)
        return {"occurred_on": day, "zone": "UTC", "recorded_at": arrival}

    common: dict[str, Any] = {"person": "W", "qualification": LEAD}
    authorised = [
        TrainerAuthorised(id=f"b-{a}", person=a, qualification=LEAD, **at(0))
        for a in ("A1", "A2", "A3")
    ]
    return [
        *authorised,
        Training(id="b-t", person="W", module=LEAD, revision=1, **at(1)),
        Quiz(id="b-q", person="W", module=LEAD, passed=True, **at(2)),
        Practical(id="b-p1", job="B1", trainer="A1", **common, **at(3)),
        Practical(id="b-p2", job="B2", trainer="A2", **common, **at(20)),
        Practical(id="b-p3", job="B3", trainer="A3", **common, **at(40)),
        Grant(id="b-g", decider="M1", **common, **at(50)),
    ]


@st.composite
def common_fields(draw: st.DrawFn, name: str) -> dict[str, Any]:
    day = draw(DAYS)
    late = draw(st.sampled_from([0, 0, 0, 0, 3, 14, 15, 40, -1, -3]))
    arrival = datetime(day.year, day.month, day.day, 18, tzinfo=UTC) + timedelta(days=late)
    zone = draw(st.sampled_from(["UTC", "America/Chicago", "Pacific/Auckland"]))
    return {"id": name, "occurred_on": day, "zone": zone, "recorded_at": arrival}


@st.composite
def one_event(draw: st.DrawFn, name: str, others: list[str]) -> Event:
    at = draw(common_fields(name))
    kind = draw(st.sampled_from(KINDS_DRAWN))
    who = {"person": draw(PEOPLE)}
    held = {**who, "qualification": LEAD}
    if kind is Training:
        return Training(**at, **who, module=LEAD, revision=draw(st.integers(1, 3)))
    if kind is Quiz:
        return Quiz(**at, **who, module=LEAD, passed=draw(st.booleans()))
    if kind in (Practical, Use):
        # Each job is watched once: of two records on one job the second may step in for the first.
        values = {"trainer": draw(TRAINERS), "job": f"job-{name}", "passed": draw(LIKELY)}
        outcome = draw(st.sampled_from(["done", "done", "done", "not-done"]))
        critical = (StepOutcome(step="one", outcome=outcome),)
        return kind(**at, **held, **values, critical=critical)
    if kind in (TrainerAuthorised, TrainerWithdrawn):
        return kind(**at, person=draw(TRAINERS), qualification=LEAD)
    if kind is ContentRevised:
        change = draw(st.sampled_from(["editorial", "major"]))
        return ContentRevised(**at, module=LEAD, revision=draw(st.integers(1, 3)), change=change)
    target = draw(st.sampled_from(others))
    if kind is Countersign:
        return Countersign(**at, **who, target=target, trainer=draw(TRAINERS))
    if kind is CounterEntry:
        return CounterEntry(**at, **who, target=target)
    if kind is IdentityMerged:
        return IdentityMerged(**at, person="W", merged=draw(st.sampled_from(["W2", "A3"])))
    return kind(**at, **held, decider=draw(st.sampled_from(["M1", "M2", "A1", "W"])))


LIKELY = st.sampled_from([True, True, True, False])
KINDS_DRAWN = (
    Training, Quiz, Practical, Practical, Use, Use, Grant, Grant, Suspend, Lift, Revoke,
    TrainerAuthorised, TrainerWithdrawn, ContentRevised, Countersign, CounterEntry, IdentityMerged,
)  # fmt: skip


@st.composite
def histories(draw: st.DrawFn) -> list[Event]:
    events = good_base()
    for number in range(draw(st.integers(0, 14))):
        events.append(draw(one_event(f"e{number}", [event.id for event in events])))
    return events


def ask(events: list[Event], as_of: date, known_on: date | None = None) -> Standing:
    return standing(events, POLICY, "W", LEAD, as_of, known_on)


def rank(answer: Standing) -> int:
    return RANK.index(answer.status)


@settings(max_examples=80, deadline=None)
@given(histories(), DAYS, DAYS)
def test_what_is_recorded_later_never_changes_an_earlier_belief(
    events: list[Event], as_of: date, known_on: date
):
    known = [event for event in events if event.recorded_at.date() <= known_on]
    assert ask(events, as_of, known_on) == ask(known, as_of)


@settings(max_examples=80, deadline=None)
@given(histories(), DAYS, st.data())
def test_sending_again_or_in_another_order_changes_nothing(
    events: list[Event], as_of: date, data: st.DataObject
):
    mixed = data.draw(st.permutations(events))
    twice = data.draw(st.lists(st.sampled_from(events), max_size=5))
    again = [replace(e, recorded_at=e.recorded_at + timedelta(hours=1)) for e in twice]
    assert ask([*mixed, *again], as_of) == ask(events, as_of)


@settings(max_examples=120, deadline=None)
@given(histories(), DAYS, st.data())
def test_losing_a_repair_that_was_relied_on_never_improves_a_standing(
    events: list[Event], as_of: date, data: st.DataObject
):
    before = ask(events, as_of)
    repairs = [e.id for e in events if isinstance(e, Practical) and e.id in before.evidence]
    if not repairs:
        return
    lost = data.draw(st.sampled_from(repairs))
    assert rank(ask([e for e in events if e.id != lost], as_of)) >= rank(before)


@settings(max_examples=120, deadline=None)
@given(histories(), DAYS, DAYS, st.sampled_from([Suspend, Revoke]))
def test_suspending_or_revoking_never_improves_a_standing(
    events: list[Event], as_of: date, occurred_on: date, kind: type
):
    arrival = datetime(occurred_on.year, occurred_on.month, occurred_on.day, 18, tzinfo=UTC)
    act = kind(
        id="new", person="W", qualification=LEAD, decider="M1", zone="UTC",
        occurred_on=occurred_on, recorded_at=arrival,
    )  # fmt: skip
    assert rank(ask([*events, act], as_of)) >= rank(ask(events, as_of))


@settings(max_examples=80, deadline=None)
@given(histories(), DAYS)
def test_the_columns_carry_all_that_a_standing_needs(events: list[Event], as_of: date):
    empty = dict.fromkeys(LIGHT, "")
    light = [light_event({**empty, **columns_of(event)}) for event in events]
    assert ask(light, as_of) == ask(events, as_of)
