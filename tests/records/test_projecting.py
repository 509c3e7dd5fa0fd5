"""The board from the projection against the definition, after appends and after a rebuild."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, date, datetime
from random import Random

import pytest
from drawn_histories import PEOPLE, POLICIES, busy_months, good_base, histories
from hypothesis import given, settings
from hypothesis import strategies as st
from records_cast import LEAD, RULE
from sqlalchemy import Connection, Engine, StaticPool, create_engine, select, text
from test_intervals import telling_days, telling_times
from told_histories import STORIES

from app.database import prepare_engine, reading_from, writing_to
from app.records.boards.board import Board, board_standings
from app.records.boards.board_cells import cell_of
from app.records.events import Event, IdentityMerged, TrainerAuthorised
from app.records.ledger.door import append
from app.records.ledger.tables import record
from app.records.ledger.triggers import TRIGGERS
from app.records.policy import Policy
from app.records.projection.pure.lanes import place_of
from app.records.projection.stored.interval_tables import TABLES, standing_interval
from app.records.projection.stored.rebuilding import rebuild
from app.records.standing.definition import judge
from app.records.standing.settling import settle


@contextmanager
def memory() -> Iterator[Engine]:
    """A database in memory, for one example of a property."""
    engine = create_engine("sqlite://", poolclass=StaticPool)
    prepare_engine(engine)
    with writing_to(engine) as connection:
        for table in (record, *TABLES):
            table.create(connection)
        for trigger in TRIGGERS["sqlite"]:
            connection.execute(text(trigger))
    yield engine
    engine.dispose()


def keep(engine: Engine, events: list[Event]) -> None:
    for event in events:
        with writing_to(engine) as connection:
            append(connection, event)


def said(board: Board, person: str, qualification: str):
    (cell,) = (cell for cell in board.row(person) if cell.qualification == qualification)
    return cell


def agrees(
    connection: Connection,
    policy: Policy,
    events: list[Event],
    as_of: date,
    known_on: date | datetime | None,
) -> None:
    """Every cell of the board is the one the definition gives."""
    board = board_standings(connection, policy, as_of, known_on)
    assert board.why_not == ""
    settled = settle(events, known_on)
    for person in PEOPLE:
        for rule in policy.qualifications.values():
            assert said(board, person, rule.id) == cell_of(judge(settled, rule, person, as_of))
    assert board.records == len([e for e in events if _is_known(e, known_on)])
    known = [e for e in events if _is_known(e, known_on)]
    on_record = {e.person for e in known} | set(settled.same)
    assert {p for p in PEOPLE if board.is_on_record(p)} == {
        p for p in on_record & set(PEOPLE) if settled.who(p) in settled.by_person
    }
    merges = [e for e in known if isinstance(e, IdentityMerged) and e.id not in settled.voided]
    assert board.away == {e.merged: e.person for e in merges}


def _is_known(event: Event, known_on: date | datetime | None) -> bool:
    if known_on is None:
        return True
    if isinstance(known_on, datetime):
        return event.recorded_at <= known_on
    return event.recorded_at.date() <= known_on


def rows_of(connection: Connection) -> set[tuple]:
    """What the rows say, however they are cut: (person, facts, days) and the times of belief.

    Without the numbers that depend on the order of building. Two records of one instant may end a
    belief and begin it again; a rebuild sees only the instant's end.
    """
    numbers = text("SELECT no, revisions FROM standing_trained")
    trained = {row.no: row.revisions for row in connection.execute(numbers)}
    named = text("SELECT no, person FROM standing_person")
    people = {row.no: row.person for row in connection.execute(named)}
    believed: dict[tuple, list[tuple[int, int]]] = {}
    for row in connection.execute(select(standing_interval)):
        place = place_of(row.from_day, row.to_day, row.recorded_from, row.recorded_to)
        assert (row.lane, row.lane_start) == place
        said = (people[row.person_no], row[3], row.from_day, row.to_day, *row[8:-1])
        times = believed.setdefault((*said, trained.get(row.trained_no)), [])
        times.append((row.recorded_from, row.recorded_to))
    return {(*said, *span) for said, times in believed.items() for span in _joined(times)}


def _joined(spans: list[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """Spans of time, those that touch put together."""
    start, end = None, None
    for since, until in sorted(spans):
        if start is None or since != end:
            if start is not None:
                yield start, end
            start = since
        end = until
    if start is not None:
        yield start, end


def _some(chance: Random, among: list, most: int) -> list:
    return chance.sample(among, min(most, len(among)))


@settings(max_examples=60, deadline=None)
@given(histories(), st.sampled_from(POLICIES), st.randoms())
def test_the_board_is_the_definitions_for_any_day_as_known_at_any_time(
    events: list[Event], policy: Policy, chance: Random
):
    with memory() as engine:
        rebuild(engine, policy)
        keep(engine, events)
        with engine.connect() as connection:
            days = telling_days(events)
            for known_at in (None, *_some(chance, telling_times(events), 6)):
                for as_of in _some(chance, days, 4):
                    agrees(connection, policy, events, as_of, known_at)
            agrees(connection, policy, events, chance.choice(days), chance.choice(days))
            kept = rows_of(connection)
        rebuild(engine, policy)
        with engine.connect() as connection:
            assert rows_of(connection) == kept


@pytest.mark.parametrize("story", STORIES)
def test_both_databases_give_the_answers_of_the_definition(engine: Engine, story: str):
    events = STORIES[story]  # as told, some by a clock set back
    policy = Policy({LEAD: replace(RULE, modules=(LEAD, "other"))})
    rebuild(engine, policy)
    keep(engine, events)
    days = telling_days(events)[::7]
    with reading_from(engine) as connection:
        for known_on in (None, *{event.recorded_at for event in events[-3:]}):
            for as_of in days:
                agrees(connection, policy, events, as_of, known_on)
        nobody = board_standings(connection, policy, days[0], None, LEAD, ["nobody"])
        assert [cell.status for cell in nobody.row("nobody")] == ["not-qualified"]
        kept = rows_of(connection)
    rebuild(engine, policy)
    with reading_from(engine) as connection:
        assert rows_of(connection) == kept


@settings(max_examples=60, deadline=None)
@given(busy_months(), st.sampled_from(POLICIES))
def test_the_short_way_of_an_append_leads_where_a_rebuild_does(events: list[Event], policy: Policy):
    with memory() as engine:
        rebuild(engine, policy)
        keep(engine, events)
        with engine.connect() as connection:
            kept = rows_of(connection)
        rebuild(engine, policy)
        with engine.connect() as connection:
            assert rows_of(connection) == kept


@settings(max_examples=20, deadline=None)
@given(histories(), st.permutations(POLICIES), st.randoms())
def test_when_the_policy_changes_between_records_the_answer_is_by_the_new_one(
    events: list[Event], policies: list[Policy], chance: Random
):
    old, new = policies[0], policies[1]
    half = len(events) // 2
    with memory() as engine:
        rebuild(engine, old)
        keep(engine, events[:half])
        with engine.connect() as connection:
            for as_of in _some(chance, telling_days(events), 4):
                board = board_standings(connection, new, as_of)
                assert board.why_not == "other-policy"
                settled = settle(events[:half])
                for person in PEOPLE:
                    assert board.row(person) == tuple(
                        cell_of(judge(settled, rule, person, as_of))
                        for rule in new.qualifications.values()
                    )
        rebuild(engine, new)
        keep(engine, events[half:])
        with engine.connect() as connection:
            for known_at in (None, *_some(chance, telling_times(events), 3)):
                for as_of in _some(chance, telling_days(events), 4):
                    agrees(connection, new, events, as_of, known_at)


@settings(max_examples=20, deadline=None)
@given(histories(), st.sampled_from(POLICIES), st.booleans(), st.randoms())
def test_a_part_of_the_board_says_what_the_whole_says(
    events: list[Event], policy: Policy, is_projected: bool, chance: Random
):
    with memory() as engine:
        if is_projected:
            rebuild(engine, policy)
        keep(engine, events)
        with engine.connect() as connection:
            for as_of in _some(chance, telling_days(events), 3):
                known_at = chance.choice((None, *telling_times(events)))
                whole = board_standings(connection, policy, as_of, known_at)
                for name in policy.qualifications:
                    few = chance.sample(PEOPLE, 2)
                    part = board_standings(connection, policy, as_of, known_at, name, few)
                    assert (part.why_not == "") == is_projected
                    for person in few:
                        assert part.row(person) == (said(whole, person, name),)
                        assert part.is_on_record(person) == whole.is_on_record(person)


def test_who_was_only_ever_authorised_to_sign_is_on_record_after_a_rebuild_too():
    policy, moment = POLICIES[0], datetime(2024, 2, 20, 18, tzinfo=UTC)
    events = good_base()
    events.append(
        TrainerAuthorised(
            id="e0", person="W2", qualification="pump", occurred_on=moment.date(), zone="UTC",
            recorded_at=moment,
        )
    )  # fmt: skip
    with memory() as engine:
        keep(engine, events)
        rebuild(engine, policy)
        with engine.connect() as connection:
            for known_at in (None, *telling_times(events)):
                agrees(connection, policy, events, date(2024, 3, 1), known_at)
