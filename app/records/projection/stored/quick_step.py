"""The short way for the most frequent record: a repair or job later than all there is.

It can only move the day by which the next one must come, so the records need not be read again.
Everything else goes the long way, projecting.work_out(). A test compares both with a rebuild.
"""

from datetime import date

from sqlalchemy import Connection

from app.driver import fetched
from app.records.days import add_months
from app.records.events import Practical, Watched
from app.records.ledger.bearing import named_in
from app.records.ledger.shared_records import SharedRecords
from app.records.policy import QualificationPolicy
from app.records.projection.pure.lanes import STILL_KNOWN, place_of
from app.records.projection.stored.interval_rows import IntervalRow
from app.records.projection.stored.interval_store import add_rows, end_belief, last_row
from app.records.standing.counting import faults
from app.records.standing.settling import settle

_CELL = "SELECT 1 FROM record WHERE person = ? AND qualification = ? AND seq <> ?"
_IN_THE_WAY = (
    f"SELECT 1 WHERE EXISTS ({_CELL} AND occurred_on >= ?)"
    f" OR EXISTS ({_CELL} AND kind = ? AND job = ? AND job <> '')"
)


def is_last_of_its_cell(
    connection: Connection, shared: SharedRecords, event: Watched, seq: int
) -> bool:
    """Whether all the person has in the qualification is from earlier days and other jobs."""
    if len(shared.ids_of(event.person)) > 1:
        return False
    cell = (event.person, event.qualification, seq)
    values = (*cell, event.occurred_on.isoformat(), *cell, event.kind, event.job)
    return not fetched(connection, _IN_THE_WAY, values)


def step(
    connection: Connection,
    shared: SharedRecords,
    rule: QualificationPolicy,
    event: Watched,
    seq: int,
    cell: tuple[int, int],
    at: int,
) -> bool:
    """Take the short way; False if it does not lead there, and nothing has been done.

    seq: of the event; cell: numbers of the person and the qualification; at: arrival, microseconds
    since 1970, not before that of any other record.
    """
    if not is_last_of_its_cell(connection, shared, event, seq):
        return False
    row = last_row(connection, *cell)
    if row is None or row.granted_on is None or row.continuity_due_on is None:
        return True  # nothing that a repair or job could move
    if row.from_day >= event.occurred_on.toordinal():
        return False
    due = _moved(shared, rule, event, date.fromordinal(row.continuity_due_on)).toordinal()
    if due != row.continuity_due_on:
        end_belief(connection, [row], at)
        add_rows(connection, _split(row, event.occurred_on.toordinal(), due, at))
    return True


def _moved(shared: SharedRecords, rule: QualificationPolicy, event: Watched, due: date) -> date:
    """Rule 8 for one record after all others."""
    is_in_time = event.occurred_on <= due or isinstance(event, Practical)
    if rule.continuity_months is None or not is_in_time:
        return due
    settled = settle(shared.bearing_on(named_in([event], event.person)))
    if next(faults(settled, rule, event), None) is not None:
        return due
    return add_months(event.occurred_on, rule.continuity_months)


def _split(row: IntervalRow, day: int, due: int, at: int) -> list[IntervalRow]:
    """The row up to the day before, and from the day on with another due day."""
    before = row._replace(to_day=day - 1, recorded_from=at, recorded_to=STILL_KNOWN)
    after = before._replace(from_day=day, to_day=row.to_day, continuity_due_on=due)
    return [_placed(before), _placed(after)]


def _placed(row: IntervalRow) -> IntervalRow:
    lane, start = place_of(row.from_day, row.to_day, row.recorded_from, row.recorded_to)
    return row._replace(lane=lane, lane_start=start)
