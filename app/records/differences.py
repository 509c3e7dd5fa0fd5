"""What was believed then and is known now of one day, and the records that made the difference.

PURE. The answer is that of the board: standing(), told by its status and its last good days. It is
worked out by the definition after each record that arrived between the two, in order of arrival,
so that every change of the answer is put down to the record with whose arrival it happened.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from app.records.board_cells import Cell, cell_of
from app.records.days import end_of_knowledge
from app.records.events import Event
from app.records.policy import Policy, QualificationPolicy
from app.records.settling import settle
from app.records.standing import judge


@dataclass(frozen=True, slots=True)
class Step:
    """A record whose arrival changed the answer, with the answers before and after it."""

    event: Event
    before: Cell
    after: Cell


@dataclass(frozen=True, slots=True)
class Difference:
    """One person's qualification, of which something else was believed than is known now.

    steps: from then to now, each beginning where the one before ended; idle: how many records
    bearing on the person arrived as well and changed nothing when they did.
    """

    person: str
    qualification: str
    then: Cell
    now: Cell
    steps: tuple[Step, ...]
    idle: int


def is_same(one: Cell, other: Cell) -> bool:
    """Whether two cells give the same answer: the status, a warning, the last good days."""
    return _answer(one) == _answer(other)


def _answer(cell: Cell) -> tuple[object, ...]:
    # What stands behind a standing that is not current shows in the status, not in its days.
    days = (cell.last_good_day, cell.continuity_due_on) if cell.is_current else ()
    return (cell.status, cell.is_due_soon, *days)


def differences(
    events: Iterable[Event],
    policy: Policy,
    person: str,
    as_of: date,
    then: date | datetime,
    now: date | datetime | None = None,
) -> list[Difference]:
    """The qualifications of a person in which the answer for a day differs between two knowledges.

    events: all that bear on the person; as_of: the day asked about; then, now: known on a day (to
    its end in UTC) or at a time, now may be None for everything. Returns only those that differ.
    Raises ContentConflict. Example: ``differences(history, policy, "W", day, day)``.
    """
    known, arrivals = _parted(events, then, now)
    found = []
    for rule in policy.qualifications.values():
        cells = list(_answers(known, arrivals, rule, person, as_of))
        if is_same(cells[0], cells[-1]):
            continue
        steps = tuple(
            Step(event, before, after)
            for event, before, after in zip(arrivals, cells, cells[1:], strict=False)
            if not is_same(before, after)
        )
        idle = len(arrivals) - len(steps)
        found.append(Difference(person, rule.id, cells[0], cells[-1], steps, idle))
    return found


def _parted(
    events: Iterable[Event], then: date | datetime, now: date | datetime | None
) -> tuple[list[Event], list[Event]]:
    """What was known then, and what arrived from then to now, in order of arrival."""
    start = end_of_knowledge(then)
    end = None if now is None else end_of_knowledge(now)
    ordered = sorted(events, key=lambda event: (event.recorded_at, event.id))
    known = [event for event in ordered if event.recorded_at <= start]
    arrivals = [
        event
        for event in ordered
        if event.recorded_at > start and (end is None or event.recorded_at <= end)
    ]
    return known, arrivals


def _answers(
    known: Sequence[Event],
    arrivals: Sequence[Event],
    rule: QualificationPolicy,
    person: str,
    as_of: date,
) -> Iterator[Cell]:
    """The answer by what was known, then after each arrival."""
    for count in range(len(arrivals) + 1):
        settled = settle([*known, *arrivals[:count]])
        yield cell_of(judge(settled, rule, person, as_of))
