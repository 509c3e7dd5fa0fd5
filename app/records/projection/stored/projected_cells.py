"""The cells of a board from the projection: rows first, objects only for what is looked at."""

from collections.abc import Collection, Iterator
from datetime import date, datetime

from sqlalchemy import Connection

from app.driver import fetched
from app.records.boards.board_cells import Cell
from app.records.events import Event
from app.records.ledger.shared_records import shared_records
from app.records.policy import Policy
from app.records.projection.pure.intervals import UpdateDue, update_due
from app.records.projection.stored.board_query import SAID, BoardRow, board_rows
from app.records.projection.stored.interval_rows import day_or_none
from app.records.projection.stored.interval_store import qualification_numbers, revisions_in
from app.records.projection.stored.known_count import instant
from app.records.standing.settling import settle

_PEOPLE = "SELECT no, person, known_from FROM standing_person"
_TRAINED = "SELECT no, qualification_no, revisions FROM standing_trained"


class ProjectedCells:
    """What the projection says of a day, as known at a time.

    on_record: people with a known record of their own or of an id merged with theirs; events: all
    merges and revisions; settled: those that were known.
    """

    def __init__(
        self,
        connection: Connection,
        policy: Policy,
        wanted: Policy,
        as_of: date,
        known_on: date | datetime | None,
        people: Collection[str] | None,
    ) -> None:
        known_at = instant(known_on)
        self._as_of = as_of
        self._wanted = wanted
        self._names = tuple(policy.qualifications)
        # The first day of each qualification that is too far off to warn of.
        self._soon = [
            as_of.toordinal() + rule.due_soon_days + 1 for rule in policy.qualifications.values()
        ]
        self.events: list[Event] = list(shared_records(connection).steering)
        self.settled = settle(self.events, known_on)
        self._updates = self._updates_due(connection, policy)
        self._numbers, self.on_record = self._people(connection, known_at)
        numbers = qualification_numbers(self._names)
        only = None if len(wanted.qualifications) > 1 else next(iter(wanted.qualifications), None)
        self._rows = board_rows(
            connection,
            as_of.toordinal(),
            known_at,
            [no for no, update in self._updates.items() if update.on < as_of],
            None if only is None else numbers[only],
            None if people is None else [self._numbers[p] for p in people if p in self._numbers],
        )
        self._by_person: dict[int, list[BoardRow]] | None = None

    def _people(
        self, connection: Connection, known_at: int
    ) -> tuple[dict[str, int], frozenset[str]]:
        """Everybody's number, and who is on record."""
        found = fetched(connection, _PEOPLE)
        alone = frozenset([person for _, person, since in found if since <= known_at])
        numbers = {person: no for no, person, _ in found}
        same = self.settled.same
        if not same:
            return numbers, alone
        groups = {self.settled.who(person) for person in alone & same.keys()}
        return numbers, alone | {person for person, group in same.items() if group in groups}

    def _updates_due(self, connection: Connection, policy: Policy) -> dict[int, UpdateDue]:
        """The training that is asked for, by the number of what somebody has trained."""
        if not self.settled.revisions:
            return {}
        found: dict[int, UpdateDue] = {}
        for no, qualification_no, text in fetched(connection, _TRAINED):
            rule = policy.rule(self._names[qualification_no])
            update = update_due(self.settled, rule, revisions_in(text), self._as_of)
            if update is not None:
                found[no] = update
        return found

    def cells_of(self, person: str) -> Iterator[Cell]:
        """The cells of a person that have a row."""
        if self._by_person is None:
            self._by_person = {}
            for row in self._rows:
                self._by_person.setdefault(row[0], []).append(row)
        for row in self._by_person.get(self._numbers.get(person, 0), ()):
            if self._names[row[1]] in self._wanted.qualifications:
                yield self._cell(person, row)

    def _cell(self, person: str, row: BoardRow) -> Cell:
        _, qualification_no, said, last_good, due, decided, trained = row
        status = SAID[said]
        update = self._updates.get(trained or 0) if status != "revoked" else None
        soon = self._soon[qualification_no]
        is_running_out = (last_good or soon) < soon or (due or soon) < soon
        return Cell(
            person,
            self._names[qualification_no],
            status,
            day_or_none(last_good),
            day_or_none(due),
            update,
            day_or_none(decided),
            status == "current" and (is_running_out or update is not None),
        )
