"""What was believed then and is known now, for everybody or one person. No Flask here."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import Connection

from app.accounts.people import names
from app.records.boards import board as boards
from app.records.boards.board_cells import Cell
from app.records.boards.differences import Difference, Switch, differences, is_same
from app.records.events import Event
from app.records.ledger.bearing import events_bearing_on
from app.records.ledger.door import event_by_id
from app.records.ledger.shared_records import shared_records
from app.records.policy import Policy

PEOPLE_ON_A_PAGE = 25


@dataclass(frozen=True, slots=True)
class Asked:
    """Of which day, believed when, known when (None: now); person: only this one, or "".

    policy: the one people were judged by then; switches: those since.
    """

    as_of: date
    then: datetime
    now: datetime | None
    policy: Policy
    switches: Sequence[Switch] = ()
    person: str = ""

    @property
    def policy_now(self) -> Policy:
        """The policy people are judged by at the end."""
        return self.switches[-1].policy if self.switches else self.policy


@dataclass(frozen=True, slots=True)
class Differing:
    """One person with the qualifications that differ, and their records by id, whole."""

    person: str
    differences: list[Difference]
    events: dict[str, Event]


@dataclass(frozen=True, slots=True)
class DifferencesPage:
    """people: those on this page; count: all who differ; arrived: records between the two."""

    people: list[Differing]
    count: int
    arrived: int
    number: int
    pages: int


def differences_page(connection: Connection, asked: Asked, number: int) -> DifferencesPage:
    """Compare the two boards, then walk through the arrivals of those who differ."""
    then = boards.board_standings(connection, asked.policy, asked.as_of, asked.then)
    now = boards.board_standings(connection, asked.policy_now, asked.as_of, asked.now)
    known_names = names(connection)
    people = {asked.person} if asked.person else {*then.source.on_record, *now.source.on_record}
    differing = sorted(
        (person for person in people if _differs(then, now, person)),
        key=lambda person: (known_names.get(person, person).casefold(), person),
    )
    pages = max(1, -(-len(differing) // PEOPLE_ON_A_PAGE))
    number = min(max(number, 1), pages)
    shown = differing[(number - 1) * PEOPLE_ON_A_PAGE : number * PEOPLE_ON_A_PAGE]
    return DifferencesPage(
        people=_walked(connection, asked, shown),
        count=len(differing),
        arrived=now.records - then.records,
        number=number,
        pages=pages,
    )


def _differs(then: boards.Board, now: boards.Board, person: str) -> bool:
    before, after = _cells(then, person), _cells(now, person)
    return any(
        not is_same(before.get(name) or nothing, after.get(name) or nothing)
        for name in before | after
        # What a policy does not know, nobody is qualified for.
        for nothing in [Cell(person=person, qualification=name, status="not-qualified")]
    )


def _cells(board: boards.Board, person: str) -> dict[str, Cell]:
    return {cell.qualification: cell for cell in board.row(person)}


def _walked(connection: Connection, asked: Asked, people: Sequence[str]) -> list[Differing]:
    shared = shared_records(connection)
    found = []
    for person in people:
        events = events_bearing_on(connection, shared, person)
        told = differences(
            events, asked.policy, person, asked.as_of, asked.then, asked.now, asked.switches
        )
        found.append(Differing(person, told, _whole(connection, told)))
    return found


def _whole(connection: Connection, told: Iterable[Difference]) -> dict[str, Event]:
    """The records that made a difference, with all that they say."""
    ids = {step.event.id for one in told for step in one.steps}
    events = {name: event_by_id(connection, name) for name in ids}
    return {name: event for name, event in events.items() if event is not None}
