"""On which days a correction raises a standing, against judge() asked of every day."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest
from drawn_histories import PEOPLE, POLICIES, START, histories
from hypothesis import given, settings
from hypothesis import strategies as st
from records_cast import (
    LEAD,
    POLICY,
    RULE,
    base,
    countered,
    decided,
    merged,
    on,
    revised,
    use,
    without,
)
from told_histories import STORIES, in_order_of_arrival

from app.records.deciding.raising import Rise, is_better, rises
from app.records.events import (
    ContentRevised,
    CounterEntry,
    Countersign,
    Decided,
    Event,
    IdentityMerged,
    Lift,
    Quiz,
    Revoke,
    Suspend,
    TrainerAuthorised,
    TrainerWithdrawn,
    Training,
    Watched,
    WorkerCountersign,
)
from app.records.policy import Policy
from app.records.standing.definition import judge
from app.records.standing.settling import Settled, settle

LATE = datetime(2032, 1, 1, tzinfo=UTC)
_DAY = timedelta(days=1)


def void_of(event: Event, name: str = "x-new") -> CounterEntry:
    return CounterEntry(
        id=name,
        target=event.id,
        person=event.person,
        qualification=event.qualification,
        occurred_on=event.occurred_on,
        zone="UTC",
        recorded_at=LATE,
    )


def by_the_definition(
    before: Settled, after: Settled, rule, person: str, days: Iterable[date]
) -> Iterator[tuple[date, str, str]]:
    """Each of the days on which the definition says better with the correction than without."""
    for one in days:
        was = judge(before, rule, person, one).status
        becomes = judge(after, rule, person, one).status
        if is_better(becomes, was):
            yield one, was, becomes


def day_by_day(found: list[Rise], days: Iterable[date]) -> list[tuple[date, str, str]]:
    return [
        (one, rise.before, rise.after)
        for one in days
        for rise in found
        if rise.from_on <= one and (rise.to_on is None or one <= rise.to_on)
    ]


def compare(
    history: list[Event],
    correction: Event,
    policy: Policy,
    days: list[date],
    people: Iterable[str] = (),
) -> None:
    """Hold the rises of these people, or of everybody, to the definition on these days."""
    found = list(rises(history, correction, policy))
    before, after = settle(history), settle([*history, correction])
    on_record = {event.person for event in history if event.person}
    for person in on_record.intersection(people or on_record):
        for rule in policy.qualifications.values():
            own = [
                rise
                for rise in found
                if before.who(rise.person) == before.who(person)
                and after.who(rise.person) == after.who(person)
                and rise.qualification == rule.id
            ]
            defined = list(by_the_definition(before, after, rule, person, days))
            assert day_by_day(own, days) == defined, (person, rule.id)


KINDS = (
    Decided, Watched, Training, Quiz, TrainerAuthorised, TrainerWithdrawn, ContentRevised,
    Countersign, WorkerCountersign, IdentityMerged, CounterEntry, CounterEntry, (Suspend, Revoke),
)  # fmt: skip


@st.composite
def corrected(draw: st.DrawFn, most: int = 20) -> tuple[list[Event], Event]:
    """A history and its correction: a record made void, that taken back, or two people made one."""
    history = draw(histories(most))
    if draw(st.integers(0, 5)) == 0:
        kept, other = draw(st.sampled_from([("W", "V"), ("W", "W2"), ("A1", "A2"), ("M1", "A1")]))
        ends = {"person": kept, "merged": other, "zone": "UTC"}
        return history, IdentityMerged(id="m-new", occurred_on=START, recorded_at=LATE, **ends)
    kind = draw(st.sampled_from(KINDS))
    first = "b" if draw(st.booleans()) else ""  # what a standing rests on, as often as the rest
    fitting = [e for e in history if isinstance(e, kind) and e.id.startswith(first)]
    return made_void(
        history,
        draw(st.sampled_from(fitting or history)),
        draw(st.sampled_from([True, True, False])),
    )


def made_void(
    history: list[Event], event: Event, is_taken_back: bool
) -> tuple[list[Event], CounterEntry]:
    entry = void_of(event)
    return ([*history, entry], void_of(entry, "x-back")) if is_taken_back else (history, entry)


def telling_days(history: list[Event]) -> list[date]:
    """The days of the records, the days around them, and some on which clocks run out."""
    days = {event.occurred_on for event in history}
    return sorted({day + timedelta(days=n) for day in days for n in (-1, 0, 1, 31, 93, 185, 732)})


@settings(max_examples=30, deadline=None)
@given(corrected(), st.sampled_from(POLICIES))
def test_rises_are_those_of_the_definition_for_everybody(
    drawn: tuple[list[Event], Event], policy: Policy
):
    history, correction = drawn
    compare(history, correction, policy, telling_days(history))


@settings(max_examples=10, deadline=None)
@given(corrected(most=12), st.sampled_from(POLICIES), st.sampled_from(PEOPLE))
def test_rises_are_those_of_the_definition_on_every_day(
    drawn: tuple[list[Event], Event], policy: Policy, person: str
):
    history, correction = drawn
    last = max(event.occurred_on for event in history)
    days = [START + n * _DAY for n in range(-5, (last - START).days + 740)]
    compare(history, correction, policy, days, [person])


TWO = replace(RULE, modules=(LEAD, "other"))


@pytest.mark.parametrize("story", STORIES)
def test_every_record_of_the_stories_made_void(story: str):
    history = in_order_of_arrival(story)
    policy = Policy({LEAD: TWO if "two modules" in story else RULE})
    days = telling_days(history)
    for event in history:
        for is_taken_back in (False, True):
            compare(*made_void(history, event, is_taken_back), policy, days)


def test_the_stories_hold_enough_that_rises():
    # The comparison above would say nothing if no correction in it raised anything.
    kinds = set()
    for history in map(in_order_of_arrival, STORIES):
        for event in history:
            before, correction = made_void(history, event, is_taken_back=True)
            if next(rises(before, correction, POLICY), None) is not None:
                kinds.add(type(event).__name__)
    assert kinds >= {"Grant", "Lift", "Practical", "Use", "Training", "Quiz", "Countersign"}
    assert kinds >= {"TrainerAuthorised", "CounterEntry"}


HELD = decided(Suspend, "s1", "2024-03-10")
LIFTED = decided(Lift, "l1", "2024-03-17")


def risen(history: list[Event], correction: Event) -> list[tuple[str, str, str, str]]:
    return [
        (str(r.from_on), str(r.to_on), r.before, r.after)
        for r in rises(history, correction, POLICY)
    ]


def test_a_week_in_the_past_counts():
    history = [*base(), use("u1", "2024-06-01"), HELD, LIFTED]
    assert risen(history, countered("x", "2026-05-01", "s1")) == [
        ("2024-03-10", "2024-03-16", "suspended", "current")
    ]


def test_a_suspension_of_somebody_never_granted_ends_with_its_lift():
    history = [*without(base(), "g1"), HELD, LIFTED]
    assert risen(history, countered("x", "2024-05-01", "s1")) == [
        ("2024-03-10", "2024-03-16", "suspended", "not-qualified")
    ]


def test_so_do_days_still_to_come():
    history = [*base(), use("u1", "2024-06-01")]
    history += [countered("x1", "2024-06-02", "u1")]
    # The job kept it up to 1 December; without it the repair of 10 February did to 10 August.
    assert risen(history, countered("x2", "2024-06-03", "x1")) == [
        ("2024-08-11", "2024-12-01", "lapsed", "current")
    ]


def test_without_an_end_where_nothing_ends_it():
    history = [*base(), decided(Revoke, "r1", "2024-03-10")]
    rows = risen(history, countered("x", "2024-04-01", "r1"))
    assert rows == [
        ("2024-03-10", "2024-08-10", "revoked", "current"),
        ("2024-08-11", "2026-02-28", "revoked", "lapsed"),
        ("2026-03-01", "None", "revoked", "expired"),
    ]


def test_the_grace_of_a_revision_ends_one():
    history = [*base(), use("u1", "2024-06-01"), revised("r2", "2024-05-01", 2, "major")]
    rows = risen(history, countered("x", "2024-07-01", "r2", person=""))
    # 30 days of grace from 1 May: the last good day was 31 May.
    assert rows[0] == ("2024-06-01", "2024-12-01", "update-needed", "current")


def test_what_takes_away_or_changes_nothing_raises_nothing():
    history = [*base(), use("u1", "2024-06-01")]
    for target in ("g1", "p1", "q1", "u1", "auth-A1"):
        target_of = next(event for event in history if event.id == target)
        assert risen(history, void_of(target_of)) == []
    assert risen(history, merged("m", "2024-05-01", "W", "Nobody")) == []


def test_a_proposal_or_a_record_of_training_made_void_raises_nothing():
    history = base()
    trained = next(event for event in history if isinstance(event, Training))
    assert risen(history, void_of(trained)) == []


def test_one_person_under_two_entries_is_told_once_by_the_entry_kept():
    history = [
        *base(),
        merged("m1", "2024-03-01", "W", "W0"),
        replace(use("u0", "2024-03-05"), person="W0"),
        replace(HELD, person="W0"),
        LIFTED,
        TrainerWithdrawn(id="w1", person="A2", qualification=LEAD, **on("2024-02-01")),
    ]
    found = list(rises(history, countered("x", "2024-05-01", "w1", person="A2"), POLICY))
    assert {rise.person for rise in found} == {"W"}
