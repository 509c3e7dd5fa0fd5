"""Reading and writing the rows of the projection; what they say is worked out elsewhere."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from sqlalchemy import Connection, bindparam, delete, func, insert, select, update

from app.records.interval_rows import IntervalRow, RowValues
from app.records.interval_tables import (
    standing_interval,
    standing_person,
    standing_projection,
    standing_qualification,
    standing_trained,
)
from app.records.lanes import FOREVER, STILL_KNOWN, place_of

_row = standing_interval.c
_KEY = ("lane", "lane_start", "person_no", "qualification_no", "from_day", "recorded_from")
_THIS = [_row[name] == bindparam(f"key_{name}") for name in _KEY]
_STATE = select(standing_projection)
_MOVE_STATE = update(standing_projection)
_PERSON = select(standing_person.c.no, standing_person.c.known_from).where(
    standing_person.c.person == bindparam("person")
)
_KNOWN = select(standing_interval).where(
    _row.person_no == bindparam("person_no"),
    _row.qualification_no == bindparam("qualification_no"),
    _row.recorded_to == STILL_KNOWN,
)
_LAST = _KNOWN.where(_row.to_day == FOREVER)
_DELETE = delete(standing_interval).where(*_THIS)
_END = (
    update(standing_interval)
    .where(*_THIS)
    .values(
        lane=bindparam("new_lane"),
        lane_start=bindparam("new_lane_start"),
        recorded_to=bindparam("new_recorded_to"),
    )
)
_TRAINED = select(standing_trained.c.revisions, standing_trained.c.no).where(
    standing_trained.c.qualification_no == bindparam("qualification_no")
)

_COLUMNS = ", ".join(IntervalRow._fields)
_ADD = {
    style: f"INSERT INTO standing_interval ({_COLUMNS})"
    f" VALUES ({', '.join([mark] * len(IntervalRow._fields))})"
    for style, mark in (("qmark", "?"), ("pyformat", "%s"), ("format", "%s"))
}


class State(NamedTuple):
    """The one row about the projection itself."""

    id: int
    policy: str
    fingerprint: str
    building: str
    through_seq: int
    latest_at: int
    is_in_order: int


def read_state(connection: Connection) -> State | None:
    """How the projection stands; None before the first rebuild."""
    row = connection.execute(_STATE).first()
    return None if row is None else State(*row)


def write_state(connection: Connection, state: State) -> None:
    """Put this state in the place of the one before, if any."""
    if connection.execute(_MOVE_STATE, state._asdict()).rowcount == 0:
        connection.execute(insert(standing_projection), state._asdict())


def person_no(connection: Connection, person: str, known_from: int = STILL_KNOWN) -> int:
    """The number of a person; a new one for a new person.

    known_from: arrival of a record about them; left out: an id that has none of its own yet.
    """
    found = connection.execute(_PERSON, {"person": person}).first()
    if found is not None and found.known_from <= known_from:
        return int(found.no)
    if found is not None:
        earlier = update(standing_person).where(standing_person.c.no == found.no)
        connection.execute(earlier, {"known_from": known_from})
        return int(found.no)
    newest = connection.scalar(select(func.max(standing_person.c.no))) or 0
    row = {"no": newest + 1, "person": person, "known_from": known_from}
    connection.execute(insert(standing_person), row)
    return int(row["no"])


def qualification_numbers(names: Iterable[str]) -> dict[str, int]:
    """Each qualification's number: its place in the policy."""
    return {name: number for number, name in enumerate(names)}


def write_qualifications(connection: Connection, names: Iterable[str]) -> None:
    """Put the numbers of the qualifications in the place of those before."""
    connection.execute(delete(standing_qualification))
    rows = [{"no": no, "qualification": q} for q, no in qualification_numbers(names).items()]
    if rows:
        connection.execute(insert(standing_qualification), rows)


class TrainedNumbers:
    """The numbers of what people have trained in one qualification; a new one when needed."""

    def __init__(self, connection: Connection, qualification_no: int) -> None:
        self._connection = connection
        self._qualification_no = qualification_no
        rows = connection.execute(_TRAINED, {"qualification_no": qualification_no})
        self._numbers: dict[str, int] = {row.revisions: row.no for row in rows}

    def number(self, trained: Sequence[int]) -> int | None:
        """The number of these revisions; None where there is no grant."""
        text = revisions_text(trained)
        if text and text not in self._numbers:
            newest = self._connection.scalar(select(func.max(standing_trained.c.no))) or 0
            row = {"no": newest + 1, "revisions": text, "qualification_no": self._qualification_no}
            self._connection.execute(insert(standing_trained), row)
            self._numbers[text] = newest + 1
        return self._numbers[text] if text else None


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
    values = {"person_no": person_no, "qualification_no": qualification_no}
    return [IntervalRow(*row) for row in connection.execute(_KNOWN, values)]


def last_row(connection: Connection, person_no: int, qualification_no: int) -> IntervalRow | None:
    """What is believed now to hold for ever; None for "not qualified"."""
    values = {"person_no": person_no, "qualification_no": qualification_no}
    row = connection.execute(_LAST, values).first()
    return None if row is None else IntervalRow(*row)


def end_belief(connection: Connection, rows: Iterable[IntervalRow], at: int) -> None:
    """These rows are no longer believed from a time on; what began at that time never was."""
    gone = [row for row in rows if row.recorded_from >= at]
    ended = [row for row in rows if row.recorded_from < at]
    if gone:
        connection.execute(_DELETE, [_key_of(row) for row in gone])
    if ended:
        connection.execute(_END, [_key_of(row) | _ended_at(row, at) for row in ended])


def _key_of(row: IntervalRow) -> dict[str, int]:
    return {f"key_{name}": getattr(row, name) for name in _KEY}


def _ended_at(row: IntervalRow, at: int) -> dict[str, int]:
    lane, start = place_of(row.from_day, row.to_day, row.recorded_from, at)
    return {"new_lane": lane, "new_lane_start": start, "new_recorded_to": at}


def add_rows(connection: Connection, rows: Sequence[RowValues]) -> None:
    """Keep new rows."""
    if rows:
        # The driver's own way: a rebuild adds millions, and naming each value takes most time.
        connection.exec_driver_sql(_ADD[connection.dialect.paramstyle], list(rows))


def forget_person(connection: Connection, person_no: int) -> None:
    """Take away all rows of a person, to be worked out anew."""
    connection.execute(delete(standing_interval).where(_row.person_no == person_no))
