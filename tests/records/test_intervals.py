"""Intervals against the definition: judge(), asked for every day of random histories."""

import json
from dataclasses import replace
from datetime import date, datetime, timedelta
from random import Random
from typing import Any

import pytest
from drawn_histories import PEOPLE, POLICIES, QUALIFICATIONS, START, histories
from hypothesis import given, settings
from hypothesis import strategies as st
from records_cast import LEAD, RULE, SCENARIOS
from test_standing_scenarios import NAMES, file_of
from told_histories import EVERY_DAY, STORIES, in_order_of_arrival

from app.records.days import end_of_knowledge
from app.records.events import Event
from app.records.policy import Policy, QualificationPolicy
from app.records.projection.pure.intervals import BLANK, Facts, Interval, status_on, update_due
from app.records.projection.pure.timeline import intervals_of
from app.records.projection.pure.versions import Version, versions_of
from app.records.standing.definition import judge
from app.records.standing.settling import Settled, settle
from app.records.standing.standing_file import read_standing_file


def facts_on(intervals: list[Interval], day: date) -> Facts:
    """The facts of the one interval that holds the day."""
    found = [i.facts for i in intervals if i.from_on <= day and (i.to_on is None or day <= i.to_on)]
    assert len(found) <= 1, "intervals overlap"
    return found[0] if found else BLANK


def believed_at(versions: list[Version], qualification: str, at: datetime) -> list[Interval]:
    return [
        v.interval
        for v in versions
        if v.qualification == qualification
        and v.recorded_from <= at
        and (v.recorded_to is None or at < v.recorded_to)
    ]


def agrees(
    facts: Facts, settled: Settled, rule: QualificationPolicy, person: str, day: date
) -> None:
    """What the facts say of a day is what the definition says of it."""
    defined = judge(settled, rule, person, day)
    update = update_due(settled, rule, facts.trained, day)
    assert status_on(facts, day, update) == defined.status
    assert facts.granted_on == defined.granted_on
    assert facts.last_good_day == defined.last_good_day
    assert facts.continuity_due_on == defined.continuity_due_on
    said = {reason.code: reason.params for reason in defined.reasons}
    against = said.get("revoked") or said.get("suspended")
    assert facts.decided_on == (against["on"] if against else None)
    if "revoked" not in said:  # a revoked standing has no warnings
        by = [r.params["by"] for r in (*defined.reasons, *defined.warnings) if "by" in r.params]
        assert (update.on if update else None) == min(by, default=None)


def telling_times(events: list[Event]) -> list[datetime]:
    """The first instants at which the records are known, and the last ones before."""
    instants = {event.recorded_at for event in events if event.id.startswith("e")}
    return sorted(at - timedelta(microseconds=n) for at in instants for n in (0, 1))


def telling_days(events: list[Event]) -> list[date]:
    """The days of the records and, for the clocks, some time after."""
    days = {event.occurred_on for event in events}
    return sorted(day + timedelta(days=n) for day in days for n in (-1, 0, 1, 100, 185))


@settings(max_examples=10, deadline=None)
@given(histories(), st.sampled_from(POLICIES), st.sampled_from(PEOPLE))
def test_intervals_say_of_every_day_what_the_definition_says(
    events: list[Event], policy: Policy, person: str
):
    settled = settle(events)
    for rule in policy.qualifications.values():
        intervals = intervals_of(settled, rule, person)
        for number in range(-3, 1500):
            day = START + timedelta(days=number)
            agrees(facts_on(intervals, day), settled, rule, person, day)


@settings(max_examples=60, deadline=None)
@given(histories(), st.sampled_from(POLICIES), st.randoms())
def test_versions_say_what_the_definition_said_at_any_time(
    events: list[Event], policy: Policy, chance: Random
):
    versions = {person: versions_of(events, policy, person) for person in PEOPLE}
    for known_at in telling_times(events):
        settled = settle(events, known_at)
        person = chance.choice(("W", "W", *PEOPLE))
        for name in QUALIFICATIONS:
            believed = believed_at(versions[person], name, known_at)
            for day in chance.sample(telling_days(events), 7):
                agrees(facts_on(believed, day), settled, policy.rule(name), person, day)


TWO = replace(RULE, modules=(LEAD, "other"))


@pytest.mark.parametrize("story", STORIES)
def test_a_later_record_changes_earlier_days_as_the_definition_says(story: str):
    events = in_order_of_arrival(story)
    rule = TWO if "two modules" in story else RULE
    for person in ("W", "W2"):
        versions = versions_of(events, Policy({LEAD: rule}), person)
        for known_at in sorted({event.recorded_at for event in events}):
            settled = settle(events, known_at)
            believed = believed_at(versions, LEAD, known_at)
            for day in EVERY_DAY[::15] + telling_days(events):
                agrees(facts_on(believed, day), settled, rule, person, day)


@pytest.mark.parametrize("scenario", SCENARIOS["scenarios"], ids=NAMES)
def test_versions_answer_as_the_table_of_scenarios_says(scenario: dict[str, Any]):
    # The expected answers are those of assessment section 5, as in test_standing_scenarios.py.
    file = read_standing_file(json.dumps(file_of(scenario)))
    versions = versions_of(file.events, file.policy, "W")
    for question in scenario["questions"]:
        as_of = date.fromisoformat(question["as_of"])
        known = date.fromisoformat(question.get("known_on") or "2100-01-01")
        facts = facts_on(believed_at(versions, LEAD, end_of_knowledge(known)), as_of)
        settled = settle(file.events, known)
        update = update_due(settled, file.policy.rule(LEAD), facts.trained, as_of)
        assert status_on(facts, as_of, update) == question["status"]


def test_intervals_are_joined_and_leave_out_days_without_anything():
    from records_cast import base, use

    intervals = intervals_of(settle([*base(), use("u1", "2024-03-05", "W")]), RULE, "W")
    assert [(i.from_on, i.to_on, i.facts.held) for i in intervals] == [
        (date(2024, 2, 29), None, "granted")
    ]
