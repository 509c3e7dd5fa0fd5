"""The board: everybody's standing as of a day, as known on a day. No Flask here."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection

from app.accounts.people import Person, all_people
from app.curriculum.model import Curriculum
from app.records.events import IdentityMerged
from app.records.ledger import light_events
from app.records.policy import policy_from
from app.records.reasons import Reason, because
from app.records.settling import Settled, settle
from app.records.standing import Standing, judge
from app.web.two_clocks import Clocks

PAGE_SIZE = 100
MOST_DUE = 20


@dataclass(frozen=True, slots=True)
class Asked:
    """Which part of the board: one qualification or all (""), one standing or all ("")."""

    qualification: str = ""
    status: str = ""

    def shows(self, standing: Standing) -> bool:
        """Whether a cell has the standing asked for. "current" takes in what is due soon."""
        return self.status in ("", standing.status, page_status(standing))


@dataclass(frozen=True, slots=True)
class BoardRow:
    """One person's standings, in the order of the columns."""

    person: Person
    standings: tuple[Standing, ...]


@dataclass(frozen=True, slots=True)
class Due:
    """A standing that runs out next: the earliest of its clocks, with the reason it is told by."""

    person: Person
    qualification: str
    on: date
    reason: Reason


@dataclass(frozen=True, slots=True)
class Board:
    """columns: qualification ids; rows: everybody asked for; due: what runs out, soonest first."""

    columns: tuple[str, ...]
    rows: list[BoardRow]
    due: list[Due]
    records: int


def load_board(connection: Connection, curriculum: Curriculum, clocks: Clocks, ask: Asked) -> Board:
    """Settle the records once and judge everybody."""
    events = list(light_events(connection, clocks.known_at))
    settled = settle(events, clocks.known_at)
    away = merged_away(events, settled)
    people = [p for p in all_people(connection) if p.id not in away and is_on_board(p, settled)]
    policy = policy_from(curriculum)
    columns = tuple(q for q in curriculum.qualifications if ask.qualification in ("", q))
    rows = [
        BoardRow(p, tuple(judge(settled, policy.rule(q), p.id, clocks.as_of) for q in columns))
        for p in people
    ]
    return Board(
        columns=columns,
        rows=[row for row in rows if any(ask.shows(s) for s in row.standings)],
        due=sorted(_due(rows), key=lambda due: (due.on, due.person.name)),
        records=len(events),
    )


def merged_away(events: Iterable[object], settled: Settled) -> dict[str, str]:
    """Ids that were entered a second time -> the id that is kept."""
    return {
        e.merged: e.person
        for e in events
        if isinstance(e, IdentityMerged) and e.id not in settled.voided
    }


def is_on_board(person: Person, settled: Settled) -> bool:
    """Whoever works or trains; and whoever is on record, even if they no longer sign in."""
    works = person.has_role("worker") or person.has_role("trainer")
    return (works and person.is_active) or settled.who(person.id) in settled.by_person


def page_status(standing: Standing) -> str:
    """The status as pages name it: a current standing with a warning is due soon."""
    if standing.status == "current" and standing.warnings:
        return "due-soon"
    return standing.status


def page_of(rows: Sequence[BoardRow], number: int) -> tuple[Sequence[BoardRow], int, int]:
    """The rows of a page, its number (the nearest there is) and how many pages there are."""
    pages = max(1, -(-len(rows) // PAGE_SIZE))
    number = min(max(number, 1), pages)
    return rows[(number - 1) * PAGE_SIZE : number * PAGE_SIZE], number, pages


def _due(rows: Iterable[BoardRow]) -> Iterator[Due]:
    for row in rows:
        for standing in row.standings:
            clocks = sorted(_clocks(standing), key=lambda pair: pair[0])
            if standing.is_current and clocks:
                yield Due(row.person, standing.qualification, *clocks[0])


def _clocks(standing: Standing) -> Iterator[tuple[date, Reason]]:
    """Every clock of a standing: its last good day, and the reason it is told by."""
    if standing.last_good_day:
        yield standing.last_good_day, because("expires-soon", on=standing.last_good_day)
    if standing.continuity_due_on:
        yield standing.continuity_due_on, because("continuity-due", on=standing.continuity_due_on)
    for warning in standing.warnings:
        by = warning.params.get("by")
        if isinstance(by, date):
            yield by, warning


def last_good_day(standing: Standing) -> date | None:
    """The earliest day on which a current standing runs out."""
    return min((day for day, _ in _clocks(standing)), default=None)
