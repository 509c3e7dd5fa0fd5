"""A status over all days: on which days it changes, and what it is from there on.

PURE. Read off the intervals and their clocks. Between two of these days nothing changes: an
interval begins or ends, a clock runs out, a module is revised, a grace ends. A test compares the
outcome with judge() on every day.
"""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from app.records.policy import QualificationPolicy
from app.records.projection.pure.intervals import Interval, status_on, update_due
from app.records.standing.definition import Status
from app.records.standing.settling import Settled, majors_by

_DAY = timedelta(days=1)


class StatusFrom(NamedTuple):
    """A status, and the day from which on it holds, until the next one's day."""

    on: date
    status: Status


def statuses_over(
    settled: Settled, rule: QualificationPolicy, intervals: Iterable[Interval]
) -> list[StatusFrom]:
    """The status of each day, as one StatusFrom for each change, in order, from date.min on.

    intervals: of a person's qualification, see intervals_of(); settled: needs no more than the
    revisions. Source: assessment section 5.
    Example: ``statuses_over(settled, rule, intervals_of(settled, rule, "W"))[-1].status``.
    """
    found = [StatusFrom(date.min, "not-qualified")]
    revised_on = sorted(_days_of_revisions(settled, rule))
    ended_on: date | None = date.min
    for interval in intervals:
        if ended_on is not None and ended_on < interval.from_on:
            _add(found, ended_on, "not-qualified")
        for day in _telling_days(interval, revised_on):
            due = None
            if revised_on and interval.facts.trained:
                due = update_due(settled, rule, interval.facts.trained, day)
            _add(found, day, status_on(interval.facts, day, due))
        ended_on = interval.to_on and interval.to_on + _DAY
    if ended_on is not None:
        _add(found, ended_on, "not-qualified")
    return found


def _add(found: list[StatusFrom], day: date, status: Status) -> None:
    if status != found[-1].status:
        found.append(StatusFrom(day, status))


def _days_of_revisions(settled: Settled, rule: QualificationPolicy) -> Iterator[date]:
    """Each major revision's day, and the first day after its grace."""
    for module in rule.modules:
        for event in majors_by(settled, module, date.max):
            yield event.occurred_on
            yield event.occurred_on + timedelta(days=rule.grace_days + 1)


def _telling_days(interval: Interval, revised_on: Sequence[date]) -> list[date]:
    """The days of an interval on which the status may be another than the day before."""
    clocks = (interval.facts.last_good_day, interval.facts.continuity_due_on)
    days = [*revised_on, *(day + _DAY for day in clocks if day is not None)]
    last = interval.to_on or date.max
    return [interval.from_on, *sorted(day for day in days if interval.from_on < day <= last)]
