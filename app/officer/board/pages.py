"""The board: everybody's standing as of a day, as known on a day. No Flask here.

The cells come from boards/board.py, which has them from the projection where it can. The reasons
stand in the records only: the file, which tells them all, has each cell it shows judged.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection

from app.accounts.people import Person, all_people
from app.curriculum.model import Curriculum
from app.records.boards import board as boards
from app.records.boards.board_cells import Cell
from app.records.events import IdentityMerged
from app.records.ledger.bearing import events_bearing_on
from app.records.ledger.shared_records import shared_records
from app.records.ledger.signing_rights import may_sign_on
from app.records.policy import policy_from
from app.records.standing.definition import Standing, judge
from app.records.standing.reasons import Reason, because
from app.records.standing.settling import Settled, settle
from app.web.two_clocks import Clocks

PAGE_SIZE = 100
MOST_DUE = 20


@dataclass(frozen=True, slots=True)
class Asked:
    """Which part of the board: one qualification or all (""), one standing or all ("")."""

    qualification: str = ""
    status: str = ""

    def shows(self, cell: Cell) -> bool:
        """Whether a cell has the standing asked for. "current" takes in what is due soon."""
        return self.status in ("", cell.status, page_status(cell))


@dataclass(frozen=True, slots=True)
class BoardRow:
    """One person's cells, in the order of the columns."""

    person: Person
    cells: tuple[Cell, ...]


@dataclass(frozen=True, slots=True)
class Due:
    """A standing that runs out next, and the last day before it does."""

    on: date
    person: Person
    cell: Cell

    @property
    def reason(self) -> Reason:
        """What runs out on that day; of several the one that a standing names first."""
        if self.on == self.cell.last_good_day:
            return because("expires-soon", on=self.on)
        if self.on == self.cell.continuity_due_on:
            return because("continuity-due", on=self.on)
        assert self.cell.update is not None
        _, module, revision = self.cell.update
        return because("update-due", module=module, revision=revision, by=self.on)


@dataclass(frozen=True, slots=True)
class Board:
    """columns: qualification ids; rows: everybody asked for; due: what runs out, soonest first.

    signing: pairs (person, qualification) of those who may sign as trainers then.
    why_not: empty, or why it was worked out from all the records, which takes longer.
    """

    columns: tuple[str, ...]
    rows: list[BoardRow]
    due: list[Due]
    records: int
    why_not: boards.WhyNot
    signing: frozenset[tuple[str, str]]


def load_board(connection: Connection, curriculum: Curriculum, clocks: Clocks, ask: Asked) -> Board:
    """The cells of everybody, with what runs out next."""
    found = boards.board_standings(
        connection,
        policy_from(curriculum),
        clocks.as_of,
        clocks.known_at,
        ask.qualification or None,
    )
    rows = [
        BoardRow(person, found.row(person.id))
        for person in all_people(connection)
        if person.id not in found.away and is_on_board(person, found)
    ]
    return Board(
        columns=found.qualifications,
        rows=[row for row in rows if any(ask.shows(cell) for cell in row.cells)],
        due=sorted(_due(rows), key=lambda due: (due.on, due.person.name)),
        records=found.records,
        why_not=found.why_not,
        signing=may_sign_on(connection, clocks.as_of, clocks.known_at),
    )


def told_standings(
    connection: Connection, curriculum: Curriculum, clocks: Clocks, ask: Asked, board: Board
) -> Iterator[tuple[Person, Standing]]:
    """Every standing the board shows, with all its reasons; one person's records at a time."""
    shared, policy = shared_records(connection), policy_from(curriculum)
    for row in board.rows:
        settled = settle(events_bearing_on(connection, shared, row.person.id), clocks.known_at)
        for cell in filter(ask.shows, row.cells):
            rule = policy.rule(cell.qualification)
            yield row.person, judge(settled, rule, row.person.id, clocks.as_of)


def merged_away(events: Iterable[object], settled: Settled) -> dict[str, str]:
    """Ids that were entered a second time -> the id that is kept."""
    return {
        e.merged: e.person
        for e in events
        if isinstance(e, IdentityMerged) and e.id not in settled.voided
    }


def is_on_board(person: Person, found: boards.Board) -> bool:
    """Whoever works or trains; and whoever is on record, even if they no longer sign in."""
    works = person.has_role("worker") or person.has_role("trainer")
    return (works and person.is_active) or found.is_on_record(person.id)


def page_status(one: Cell | Standing) -> str:
    """The status as pages name it: a current standing with a warning is due soon."""
    return "due-soon" if one.is_due_soon else one.status


def page_of(rows: Sequence[BoardRow], number: int) -> tuple[Sequence[BoardRow], int, int]:
    """The rows of a page, its number (the nearest there is) and how many pages there are."""
    pages = max(1, -(-len(rows) // PAGE_SIZE))
    number = min(max(number, 1), pages)
    return rows[(number - 1) * PAGE_SIZE : number * PAGE_SIZE], number, pages


def _due(rows: Iterable[BoardRow]) -> Iterator[Due]:
    for row in rows:
        for cell in row.cells:
            last = cell.runs_out_on
            if last is not None and cell.is_current:
                yield Due(last, row.person, cell)
