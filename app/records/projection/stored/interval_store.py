"""Reading and writing the rows of the projection; what they say is worked out elsewhere."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from sqlalchemy import Connection

from app.driver import fetched, sent, sent_many
from app.records.projection.pure.lanes import FOREVER, STILL_KNOWN, place_of
from app.records.projection.stored.interval_rows import IntervalRow, RowValues

_COLUMNS = ", ".join(IntervalRow._fields)
_ADD = (
    f"INSERT INTO standing_interval ({_COLUMNS})"
    f" VALUES ({', '.join('?' * len(IntervalRow._fields))})"
)
_KNOWN = (
    f"SELECT {_COLUMNS} FROM standing_interval WHERE person_no = ? AND qualification_no = ?"
    f" AND recorded_to = {STILL_KNOWN}"
)
_LAST = f"{_KNOWN} AND to_day = {FOREVER}"
_THIS = " AND ".join(f"{name} = ?" for name in IntervalRow._fields[:6])  # the primary key
_DELETE = f"DELETE FROM standing_interval WHERE {_THIS}"
_END = f"UPDATE standing_interval SET lane = ?, lane_start = ?, recorded_to = ? WHERE {_THIS}"


class State(NamedTuple):
    """The one row about the projection itself."""

    id: int
    policy: str
    fingerprint: str
    building: str
    through_seq: int
    latest_at: int
    is_in_order: int


_STATE = ", ".join(State._fields)
_MARKS = ", ".join("?" * len(State._fields))
_PUT_STATE = f"UPDATE standing_projection SET ({_STATE}) = ({_MARKS})"
_MOVE_STATE = "UPDATE standing_projection SET through_seq = ?, latest_at = ?, is_in_order = ?"


def read_state(connection: Connection) -> State | None:
    """How the projection stands; None before the first rebuild."""
    rows = fetched(connection, f"SELECT {_STATE} FROM standing_projection")
    return State._make(rows[0]) if rows else None


def write_state(connection: Connection, state: State) -> None:
    """Put this state in the place of the one before, if any."""
    if sent(connection, _PUT_STATE, state) == 0:
        sent(connection, f"INSERT INTO standing_projection ({_STATE}) VALUES ({_MARKS})", state)


def move_state(connection: Connection, state: State) -> None:
    """The same where only the records it was worked out from are others."""
    sent(connection, _MOVE_STATE, (state.through_seq, state.latest_at, state.is_in_order))


def person_no(connection: Connection, person: str, known_from: int = STILL_KNOWN) -> int:
    """The number of a person; a new one for a new person.

    known_from: arrival of a record about them; left out: an id that has none of its own yet.
    """
    wanted = "SELECT no, known_from FROM standing_person WHERE person = ?"
    rows = fetched(connection, wanted, (person,))
    if not rows:
        ((newest,),) = fetched(connection, "SELECT coalesce(max(no), 0) FROM standing_person")
        rows = [(newest + 1, known_from)]
        add = "INSERT INTO standing_person (no, known_from, person) VALUES (?, ?, ?)"
        sent(connection, add, (*rows[0], person))
    no, since = rows[0]
    if known_from < since:
        sent(connection, "UPDATE standing_person SET known_from = ? WHERE no = ?", (known_from, no))
    return int(no)


def qualification_numbers(names: Iterable[str]) -> dict[str, int]:
    """Each qualification's number: its place in the policy."""
    return {name: number for number, name in enumerate(names)}


def write_qualifications(connection: Connection, names: Iterable[str]) -> None:
    """Put the numbers of the qualifications in the place of those before."""
    sent(connection, "DELETE FROM standing_qualification")
    numbered = [(no, name) for name, no in qualification_numbers(names).items()]
    add = "INSERT INTO standing_qualification (no, qualification) VALUES (?, ?)"
    sent_many(connection, add, numbered)


class TrainedNumbers:
    """The numbers of what people have trained in one qualification; a new one when needed."""

    def __init__(self, connection: Connection, qualification_no: int) -> None:
        self._connection = connection
        self._qualification_no = qualification_no
        wanted = "SELECT revisions, no FROM standing_trained WHERE qualification_no = ?"
        self._numbers: dict[str, int] = dict(fetched(connection, wanted, (qualification_no,)))

    def number(self, trained: Sequence[int]) -> int | None:
        """The number of these revisions; None where there is no grant."""
        text = revisions_text(trained)
        if text and text not in self._numbers:
            self._numbers[text] = self._new(text)
        return self._numbers[text] if text else None

    def _new(self, text: str) -> int:
        newest = "SELECT coalesce(max(no), 0) FROM standing_trained"
        ((last,),) = fetched(self._connection, newest)
        add = "INSERT INTO standing_trained (no, qualification_no, revisions) VALUES (?, ?, ?)"
        sent(self._connection, add, (last + 1, self._qualification_no, text))
        return int(last) + 1


def revisions_text(trained: Sequence[int]) -> str:
    """Revisions as the table holds them: "2,1,1"."""
    return ",".join(map(str, trained))


def revisions_in(text: str) -> tuple[int, ...]:
    """The revisions in a text of revisions_text()."""
    return tuple(map(int, text.split(",")))


def rows_still_known(
    connection: Connection, person_no: int, qualification_no: int
) -> list[IntervalRow]:
    """What is believed now about one cell of the board."""
    found = fetched(connection, _KNOWN, (person_no, qualification_no))
    return [IntervalRow._make(row) for row in found]


def last_row(connection: Connection, person_no: int, qualification_no: int) -> IntervalRow | None:
    """What is believed now to hold for ever; None for "not qualified"."""
    rows = fetched(connection, _LAST, (person_no, qualification_no))
    return IntervalRow._make(rows[0]) if rows else None


def end_belief(connection: Connection, rows: Iterable[IntervalRow], at: int) -> None:
    """These rows are no longer believed from a time on; what began at that time never was."""
    for row in rows:
        if row.recorded_from >= at:
            sent(connection, _DELETE, row[:6])
        else:
            lane, start = place_of(row.from_day, row.to_day, row.recorded_from, at)
            sent(connection, _END, (lane, start, at, *row[:6]))


def add_rows(connection: Connection, rows: Sequence[RowValues]) -> None:
    """Keep new rows."""
    if rows:
        sent_many(connection, _ADD, rows)


def forget_person(connection: Connection, person_no: int) -> None:
    """Take away all rows of a person, to be worked out anew."""
    sent(connection, "DELETE FROM standing_interval WHERE person_no = ?", (person_no,))
