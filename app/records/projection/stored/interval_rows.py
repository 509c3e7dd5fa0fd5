"""Intervals and the times of their belief as rows of the table, and back."""

from datetime import UTC, date, datetime, timedelta
from typing import NamedTuple, TypeAlias, get_args

from app.records.projection.pure.intervals import Facts, Held, Interval
from app.records.projection.pure.lanes import FOREVER, STILL_KNOWN, place_of

HELD: tuple[Held, ...] = get_args(Held)  # the column held is the place in here
_NUMBER = {held: number for number, held in enumerate(HELD)}
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_MICROSECOND = timedelta(microseconds=1)


class IntervalRow(NamedTuple):
    """A row of standing_interval, in the order of its columns."""

    lane: int
    lane_start: int
    person_no: int
    qualification_no: int
    from_day: int
    recorded_from: int
    to_day: int
    recorded_to: int
    held: int
    granted_on: int | None
    last_good_day: int | None
    continuity_due_on: int | None
    decided_on: int | None
    trained_no: int | None


RowValues: TypeAlias = tuple[int | None, ...]  # the same without names, where there are millions


def microseconds(moment: datetime) -> int:
    """A UTC time as microseconds since 1970."""
    return (moment - _EPOCH) // _MICROSECOND


def row_of(
    person_no: int,
    qualification_no: int,
    interval: Interval,
    trained_no: int | None,
    recorded_from: int,
    recorded_to: int = STILL_KNOWN,
) -> IntervalRow:
    """The row of an interval believed from one time (microseconds since 1970) to another."""
    from_on, to_on, facts = interval
    from_day = from_on.toordinal()
    to_day = FOREVER if to_on is None else to_on.toordinal()
    lane, lane_start = place_of(from_day, to_day, recorded_from, recorded_to)
    return IntervalRow(
        lane,
        lane_start,
        person_no,
        qualification_no,
        from_day,
        recorded_from,
        to_day,
        recorded_to,
        _NUMBER[facts.held],
        _number(facts.granted_on),
        _number(facts.last_good_day),
        _number(facts.continuity_due_on),
        _number(facts.decided_on),
        trained_no,
    )


def interval_of(row: IntervalRow, trained: tuple[int, ...]) -> Interval:
    """The interval in a row; trained: what its trained_no stands for."""
    facts = Facts(
        held=HELD[row.held],
        granted_on=day_or_none(row.granted_on),
        last_good_day=day_or_none(row.last_good_day),
        continuity_due_on=day_or_none(row.continuity_due_on),
        decided_on=day_or_none(row.decided_on),
        trained=trained,
    )
    to_on = None if row.to_day == FOREVER else date.fromordinal(row.to_day)
    return Interval(date.fromordinal(row.from_day), to_on, facts)


def _number(day: date | None) -> int | None:
    return None if day is None else day.toordinal()


def day_or_none(number: int | None) -> date | None:
    """The day of a day number; None of None."""
    return None if number is None else date.fromordinal(number)
