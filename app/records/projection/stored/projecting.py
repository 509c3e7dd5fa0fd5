"""After each append: the standings it bears on are worked out again, and no others.

Called by the ledger inside the transaction of the append, so that the board is never behind. The
projection keeps to the policy it was built by, whatever content this server has: a board with
another policy does not use it. Nothing happens while a rebuild is at work, or if records are
missing; the next rebuild takes them in.
"""

from collections.abc import Iterable

from sqlalchemy import Connection

from app.records.events import Event, Watched
from app.records.ledger.bearing import events_bearing_on
from app.records.ledger.shared_records import SharedRecords, shared_records
from app.records.policy import Policy
from app.records.projection.pure.lanes import STILL_KNOWN
from app.records.projection.pure.timeline import intervals_of
from app.records.projection.pure.versions import versions_of
from app.records.projection.stored.interval_rows import IntervalRow, microseconds, row_of
from app.records.projection.stored.interval_store import (
    State,
    TrainedNumbers,
    add_rows,
    end_belief,
    forget_person,
    move_state,
    person_no,
    qualification_numbers,
    read_state,
    rows_still_known,
)
from app.records.projection.stored.projection_policy import policy_in
from app.records.projection.stored.quick_step import step
from app.records.projection.stored.touching import touched
from app.records.standing.settling import settle


def project(connection: Connection, event: Event, seq: int) -> None:
    """Take a record that was just appended into the projection, if it is up to the one before."""
    state = read_state(connection)
    if state is None or state.building or state.through_seq != seq - 1:
        return
    at = microseconds(event.recorded_at)
    is_in_order = at >= state.latest_at
    policy = policy_in(state.policy)
    number = person_no(connection, event.person, at) if event.person else 0
    if not (is_in_order and _step(connection, policy, event, seq, number, at)):
        work_out(connection, policy, event, is_in_order)
    move_state(connection, moved_on(state, seq, at))


def _step(
    connection: Connection, policy: Policy, event: Event, seq: int, number: int, at: int
) -> bool:
    """Try the short way."""
    if not isinstance(event, Watched) or event.qualification not in policy.qualifications:
        return False
    cell = (number, qualification_numbers(policy.qualifications)[event.qualification])
    rule = policy.rule(event.qualification)
    return step(connection, shared_records(connection), rule, event, seq, cell, at)


def moved_on(state: State, seq: int, at: int) -> State:
    """The state after one more record."""
    return state._replace(
        through_seq=seq,
        latest_at=max(at, state.latest_at),
        is_in_order=int(state.is_in_order and at >= state.latest_at),
    )


def work_out(connection: Connection, policy: Policy, event: Event, is_in_order: bool) -> None:
    """Bring the rows of everybody touched by a record up to date.

    is_in_order: no known record arrived later, so that only the present belief changes.
    """
    shared = shared_records(connection)
    at = microseconds(event.recorded_at)
    for person, names in touched(connection, shared, policy, event).items():
        if is_in_order:
            update_beliefs(connection, shared, policy, person, names, at)
        else:
            rewrite_beliefs(connection, shared, policy, person)


def update_beliefs(
    connection: Connection,
    shared: SharedRecords,
    policy: Policy,
    person: str,
    names: Iterable[str],
    at: int,
) -> None:
    """End what is no longer believed about some qualifications from a time on; begin what is."""
    wanted = list(names)
    only = wanted[0] if len(wanted) == 1 else None
    settled = settle(events_bearing_on(connection, shared, person, only))
    numbers = qualification_numbers(policy.qualifications)
    person_number = person_no(connection, person)
    for name in wanted:
        trained = TrainedNumbers(connection, numbers[name])
        now = [
            row_of(person_number, numbers[name], i, trained.number(i.facts.trained), at)
            for i in intervals_of(settled, policy.rule(name), person)
        ]
        before = rows_still_known(connection, person_number, numbers[name])
        replace_rows(connection, before, now, at)


def replace_rows(
    connection: Connection, before: Iterable[IntervalRow], now: Iterable[IntervalRow], at: int
) -> None:
    """Write only what is not the same as before."""
    old = {_said(row): row for row in before}
    new = {_said(row): row for row in now}
    end_belief(connection, [row for said, row in old.items() if said not in new], at)
    add_rows(connection, [row for said, row in new.items() if said not in old])


def _said(row: IntervalRow) -> tuple[int | None, ...]:
    """What a row says, without since when it is believed."""
    return (row.from_day, row.to_day, *row[8:])


def rewrite_beliefs(
    connection: Connection, shared: SharedRecords, policy: Policy, person: str
) -> None:
    """Work out anew all that was ever believed about a person: something came late."""
    events = events_bearing_on(connection, shared, person)
    number = person_no(connection, person)
    forget_person(connection, number)
    numbers = qualification_numbers(policy.qualifications)
    trained = {name: TrainedNumbers(connection, no) for name, no in numbers.items()}
    rows = []
    for name, interval, since, until in versions_of(events, policy, person):
        ended = STILL_KNOWN if until is None else microseconds(until)
        number_of = trained[name].number(interval.facts.trained)
        began = microseconds(since)
        rows.append(row_of(number, numbers[name], interval, number_of, began, ended))
    add_rows(connection, rows)
