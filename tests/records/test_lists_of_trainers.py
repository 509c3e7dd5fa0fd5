"""A trainer's lists, read through their indexes, against the plain definition over every record."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from drawn_histories import POLICIES, TRAINERS, histories
from hypothesis import given, settings
from hypothesis import strategies as st
from records_cast import LEAD, RULE, base, use
from sqlalchemy import Connection, Engine
from sqlalchemy.event import listen
from test_projecting import keep, memory
from told_histories import STORIES

from app.database import engine_at
from app.records.events import Event, Watched
from app.records.ledger.watched_records import came_later
from app.records.policy import Policy
from app.records.standing.counting import is_countersigned, needs_countersign
from app.records.standing.settling import settle
from app.trainer.signing.pages import NEWEST, late_entries, signed_by


def lists_agree(connection: Connection, policy: Policy, events: list[Event]) -> None:
    for trainer in TRAINERS:
        signed = {one.id: one.is_void for one in signed_by(connection, trainer)}
        voided = settle(events).voided
        own = [e for e in events if isinstance(e, Watched) and e.trainer == trainer]
        assert signed == {event.id: event.id in voided for event in own}
        waiting = late_entries(connection, policy, trainer)
        assert sorted(event.id for event in waiting) == waiting_for(events, policy, trainer)


def waiting_for(events: list[Event], policy: Policy, trainer: str) -> list[str]:
    """By reading everything: in force, late or flagged, of others, not vouched for yet."""
    settled, found = settle(events), []
    for event in events:
        if not isinstance(event, Watched) or event.id in settled.voided:
            continue
        rule = policy.qualifications[event.qualification]
        others = settled.who(trainer) not in map(settled.who, (event.trainer, event.person))
        if others and needs_countersign(rule, event) and not is_countersigned(settled, rule, event):
            found.append(event.id)
    return sorted(found)


@settings(max_examples=60, deadline=None)
@given(events=histories(), policy=st.sampled_from(POLICIES))
def test_drawn_histories_give_the_lists_of_the_definition(events, policy):
    with memory() as engine:
        keep(engine, events)
        with engine.connect() as connection:
            lists_agree(connection, policy, events)


@pytest.mark.parametrize("story", sorted(STORIES))
def test_told_histories_do_on_both_databases(engine: Engine, story: str):
    events = STORIES[story]  # as told, some by a clock set back
    keep(engine, events)
    with engine.connect() as connection:
        lists_agree(connection, Policy({LEAD: RULE}), events)


@pytest.mark.parametrize("story", sorted(STORIES))
def test_what_was_signed_stands_the_newest_first(engine: Engine, story: str):
    keep(engine, STORIES[story])
    with engine.connect() as connection:
        days = [one.occurred_on for one in signed_by(connection, "A1")]
    assert days
    assert days == sorted(days, reverse=True)


def test_where_no_day_is_allowed_the_next_one_at_the_site_is_late(engine: Engine):
    policy = Policy({LEAD: replace(RULE, late_entry_days=0)})
    one = replace(
        use("u1", "2024-07-30"),
        zone="Pacific/Auckland",  # UTC+12 in July: there it is one in the night, the day after
        recorded_at=datetime(2024, 7, 30, 13, tzinfo=UTC),
    )
    keep(engine, [*base(), one])
    with engine.connect() as connection:
        assert [e.id for e in late_entries(connection, policy, "A2")] == ["u1"]
        lists_agree(connection, policy, [*base(), one])


def test_only_the_newest_are_listed(engine: Engine):
    events = [use(f"u{n}", f"2024-{4 + n // 28:02}-{n % 28 + 1:02}") for n in range(NEWEST + 5)]
    keep(engine, [*base(), *events])
    with engine.connect() as connection:
        listed = [one.id for one in signed_by(connection, events[0].trainer)]
    assert listed == [event.id for event in reversed(events)][:NEWEST]


def test_late_entries_are_found_through_their_index(sqlite_url: str):
    engine, asked = engine_at(sqlite_url), []
    with engine.connect() as connection:
        listen(connection, "before_cursor_execute", lambda *about: asked.append(about[2:4]))
        came_later(connection, least_days=14)
        (wanted, values) = asked[0]
        plan = connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {wanted}", values).all()
    assert "record_later" in str(plan)
