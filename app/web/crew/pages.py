"""What the crew check shows, worked out from the records. No Flask here."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection

from app.accounts.people import Person, all_people
from app.curriculum.crew import JobNeeds
from app.records.boards.board import Board, board_standings
from app.records.boards.crew_check import Covered, cover
from app.records.boards.crew_members import CrewMember, crew_members
from app.records.ledger.door import history_of
from app.records.policy import Policy
from app.records.standing.definition import Standing
from app.records.standing.settling import settle
from app.web.two_clocks import Clocks

MOST_SHOWN = 100


@dataclass(frozen=True, slots=True)
class Candidate:
    """Somebody who may be ticked; holds: the needed qualifications current on the day."""

    person: Person
    holds: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Runs:
    """The first clock of a crew member that runs out, in a hand they could fill."""

    person: str
    qualification: str
    on: date


@dataclass(frozen=True, slots=True)
class CrewAnswer:
    """members: the crew by name; covered: hand by hand; next_out: soonest first."""

    members: tuple[CrewMember, ...]
    covered: tuple[Covered, ...]
    next_out: tuple[Runs, ...]

    @property
    def may_work(self) -> bool:
        """Whether every hand is filled and everyone has shown what everyone must."""
        return self._is_full and all(m.is_ready for m in self.members)

    @property
    def could_without(self) -> bool:
        """Whether only people stand in the way who may not come along: they fill no hand."""
        return self._is_full and not self.may_work

    @property
    def _is_full(self) -> bool:
        return not any(one.lacking for one in self.covered)

    def takes(self, person: str) -> tuple[str, ...]:
        """The qualifications of the hands a person fills."""
        return tuple(c.hand.qualification for c in self.covered if person in c.by)


def candidates(
    connection: Connection, policy: Policy, needs: JobNeeds, clocks: Clocks, today: date
) -> list[Candidate]:
    """Everybody who may be ticked, whoever holds a needed qualification first, then by name.

    For days gone by also people who no longer sign in, if they are on record.
    """
    board = board_standings(connection, policy, clocks.as_of, clocks.known_at)
    wanted = {hand.qualification for hand in needs.hands}
    found = [
        Candidate(person, _holds(board, person.id, wanted))
        for person in all_people(connection)
        if person.id not in board.away and _may_come(person, board, clocks.as_of < today)
    ]
    return sorted(found, key=lambda one: not one.holds)  # stable: they come by name


def _holds(board: Board, person: str, wanted: set[str]) -> tuple[str, ...]:
    cells = board.row(person)
    return tuple(c.qualification for c in cells if c.is_current and c.qualification in wanted)


def _may_come(person: Person, board: Board, is_past: bool) -> bool:
    works = person.has_role("worker") or person.has_role("trainer")
    return (works and person.is_active) or (is_past and board.is_on_record(person.id))


def to_be_shown(
    found: Iterable[Candidate], part: str, ticked: Sequence[str]
) -> tuple[list[Candidate], int]:
    """Those with the part in their name and those ticked, no more than a page takes; the rest."""
    wanted = part.strip().casefold()
    chosen = [
        one for one in found if wanted in one.person.name.casefold() or one.person.id in ticked
    ]
    first = [one for one in chosen if one.person.id in ticked]
    more = [one for one in chosen if one.person.id not in ticked]
    shown = [*first, *more[: max(0, MOST_SHOWN - len(first))]]
    return shown, len(chosen) - len(shown)


def crew_answer(
    connection: Connection,
    policy: Policy,
    needs: JobNeeds,
    clocks: Clocks,
    ticked: Sequence[str],
    found: Sequence[Candidate],
) -> CrewAnswer:
    """Whether the people ticked can do a job on the day, as known; who else could help.

    ticked: ids of people in found; only these are judged in full, by the definition itself.
    """
    crew = [one.person.id for one in found if one.person.id in ticked]
    events = history_of(connection, *crew, known_on=clocks.known_at)
    settled = settle(events, clocks.known_at)
    members = crew_members(settled, policy, needs.everyone, crew, clocks.as_of)
    ready = {m.person: m.holds for m in members if m.is_ready}
    covered = cover(needs.hands, ready, _others(found, ticked))
    wanted = [hand.qualification for hand in needs.hands]
    return CrewAnswer(tuple(members), covered, tuple(_next_out(members, wanted)))


def _others(found: Iterable[Candidate], ticked: Sequence[str]) -> Mapping[str, Sequence[str]]:
    return {
        one.person.id: one.holds
        for one in found
        if one.holds and one.person.is_active and one.person.id not in ticked
    }


def _next_out(members: Iterable[CrewMember], wanted: Sequence[str]) -> list[Runs]:
    found = [
        Runs(member.person, name, on)
        for member in members
        for name in wanted
        if (on := runs_out_on(member.standings[name])) is not None
    ]
    return sorted(found, key=lambda one: one.on)


def runs_out_on(standing: Standing) -> date | None:
    """The earliest day on which a current standing is still good; None: none is running."""
    if not standing.is_current:
        return None
    due = [day for w in standing.warnings if isinstance(day := w.params.get("by"), date)]
    clocks = (standing.last_good_day, standing.continuity_due_on, *due)
    return min((day for day in clocks if day is not None), default=None)
