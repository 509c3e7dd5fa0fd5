"""What was believed then and is known now of one day, and the records that made the difference.

PURE. The answer is that of the board: standing(), told by its status and its last good days. It is
worked out by the definition after each record that arrived between the two, in order of arrival,
and after each change of the policy, so that every change of the answer is put down to the record
with whose arrival, or with whose coming into force, it happened.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import NamedTuple

from app.records.boards.board_cells import Cell, cell_of
from app.records.days import end_of_knowledge
from app.records.events import Event
from app.records.policy import Policy
from app.records.standing.definition import judge
from app.records.standing.settling import settle


@dataclass(frozen=True, slots=True)
class Switch:
    """From a moment on people were judged by another policy; event: the approval behind it."""

    at: datetime
    event: Event
    policy: Policy


@dataclass(frozen=True, slots=True)
class Step:
    """A record that changed the answer, with the answers before and after it."""

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
    switches: Sequence[Switch] = (),
) -> list[Difference]:
    """The qualifications of a person in which the answer for a day differs between two knowledges.

    events: all that bear on the person; policy: the one used then, switches: those used since, in
    order; as_of: the day asked about; then, now: known on a day (to its end in UTC) or at a time,
    now may be None for everything. Returns only those that differ. Raises ContentConflict.
    Example: ``differences(history, policy, "W", day, day)``.
    """
    known, arrivals = _parted(events, then, now)
    moments = sorted(
        [*(_Moment(e.recorded_at, e, None) for e in arrivals)]
        + [_Moment(switch.at, switch.event, switch.policy) for switch in switches],
        key=lambda moment: (moment.at, moment.policy is not None, moment.event.id),
    )
    names = dict.fromkeys(policy.qualifications)
    for switch in switches:
        names |= dict.fromkeys(switch.policy.qualifications)
    told = (_told(known, moments, policy, person, name, as_of) for name in names)
    return [one for one in told if not is_same(one.then, one.now)]


class _Moment(NamedTuple):
    """A record arrives (policy None), or a policy comes into use by its approval."""

    at: datetime
    event: Event
    policy: Policy | None


def _parted(
    events: Iterable[Event], then: date | datetime, now: date | datetime | None
) -> tuple[list[Event], list[Event]]:
    """What was known then, and what arrived from then to now."""
    start = end_of_knowledge(then)
    end = None if now is None else end_of_knowledge(now)
    until = [event for event in events if end is None or event.recorded_at <= end]
    known = [event for event in until if event.recorded_at <= start]
    arrivals = [event for event in until if event.recorded_at > start]
    return known, arrivals


def _told(
    known: Sequence[Event],
    moments: Sequence[_Moment],
    policy: Policy,
    person: str,
    name: str,
    as_of: date,
) -> Difference:
    """One qualification walked through, moment by moment."""
    have = list(known)
    cells = [_cell(have, policy, person, name, as_of)]
    for moment in moments:
        if moment.policy is None:
            have.append(moment.event)
        else:
            policy = moment.policy
        cells.append(_cell(have, policy, person, name, as_of))
    steps = tuple(
        Step(moment.event, before, after)
        for moment, before, after in zip(moments, cells, cells[1:], strict=False)
        if not is_same(before, after)
    )
    made = {step.event.id for step in steps}
    idle = sum(m.policy is None and m.event.id not in made for m in moments)
    return Difference(person, name, cells[0], cells[-1], steps, idle)


def _cell(events: Iterable[Event], policy: Policy, person: str, name: str, as_of: date) -> Cell:
    """The answer by these records; not qualified for what the policy does not know."""
    rule = policy.qualifications.get(name)
    if rule is None:
        return Cell(person=person, qualification=name, status="not-qualified")
    return cell_of(judge(settle(events), rule, person, as_of))
