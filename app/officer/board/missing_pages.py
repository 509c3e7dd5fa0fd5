"""Whoever is not qualified for something, and what each of them lacks. No Flask here."""

from collections.abc import Sequence
from dataclasses import dataclass

from sqlalchemy import Connection

from app.accounts.people import Person, all_people
from app.officer.board.pages import is_on_board
from app.records.boards.board import board_standings
from app.records.ledger.bearing import events_bearing_on
from app.records.ledger.shared_records import shared_records
from app.records.policy import Policy
from app.records.standing.definition import Standing, judge
from app.records.standing.settling import settle
from app.web.two_clocks import Clocks

PEOPLE_ON_A_PAGE = 50


@dataclass(frozen=True, slots=True)
class Lacking:
    """Somebody whose standing is not current, with why not and what is missing."""

    person: Person
    standing: Standing


@dataclass(frozen=True, slots=True)
class MissingPage:
    """people: those on this page; count: all who are not current; current: how many are."""

    people: list[Lacking]
    count: int
    current: int
    number: int
    pages: int


def missing_page(
    connection: Connection, policy: Policy, qualification: str, clocks: Clocks, number: int
) -> MissingPage:
    """Everybody on the board who is not current: those who were once, who began, then the others.

    Only those on the page are judged in full.
    """
    board = board_standings(connection, policy, clocks.as_of, clocks.known_at, qualification)
    people = [
        person
        for person in all_people(connection)
        if person.id not in board.away and is_on_board(person, board)
    ]
    cells = {person.id: board.row(person.id)[0] for person in people}
    lacking = [person for person in people if not cells[person.id].is_current]
    # Stable: within each part they stay in the order of their names.
    lacking.sort(key=lambda one: not board.is_on_record(one.id))
    lacking.sort(key=lambda one: cells[one.id].status == "not-qualified")
    pages = max(1, -(-len(lacking) // PEOPLE_ON_A_PAGE))
    number = min(max(number, 1), pages)
    shown = lacking[(number - 1) * PEOPLE_ON_A_PAGE : number * PEOPLE_ON_A_PAGE]
    return MissingPage(
        people=_judged(connection, policy, qualification, clocks, shown),
        count=len(lacking),
        current=len(people) - len(lacking),
        number=number,
        pages=pages,
    )


def _judged(
    connection: Connection,
    policy: Policy,
    qualification: str,
    clocks: Clocks,
    people: Sequence[Person],
) -> list[Lacking]:
    shared, rule = shared_records(connection), policy.rule(qualification)
    found = []
    for person in people:
        settled = settle(events_bearing_on(connection, shared, person.id), clocks.known_at)
        found.append(Lacking(person, judge(settled, rule, person.id, clocks.as_of)))
    return found
