"""All rows of the projection from all records, a part of the people at a time.

The parts do not depend on each other, so several processes can share them; each reads for itself.
A record that is appended meanwhile may be seen by some and not by others: whomever it touches is
worked out again at the end of the rebuild.
"""

import sys
from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor
from dataclasses import dataclass
from itertools import groupby
from multiprocessing import get_context
from typing import Any, NamedTuple

from sqlalchemy import Connection

from app.database import engine_at, reading_from
from app.records.events import Event
from app.records.ledger.bearing import events_bearing_on, named_in
from app.records.ledger.columns import LIGHT, light_event
from app.records.ledger.shared_records import SharedRecords, shared_records
from app.records.policy import Policy
from app.records.projection.pure.lanes import STILL_KNOWN
from app.records.projection.pure.versions import versions_of
from app.records.projection.stored.interval_rows import RowValues, microseconds, row_of
from app.records.projection.stored.interval_store import qualification_numbers, revisions_text

_OWN = (
    f"SELECT {', '.join(LIGHT)} FROM record"
    " WHERE person BETWEEN {0} AND {0} AND is_shared = 0 ORDER BY person"
)
_PERSON = LIGHT.index("person")
_AT_ONCE = 5000


class Part(NamedTuple):
    """People in the database's order (merged ids in any), and the number of the first."""

    first_no: int
    people: tuple[str, ...]


@dataclass(slots=True)
class PartRows:
    """The rows of a part.

    known_from: for each of the people, arrival of the first record about them (microseconds since
    1970); trained: what the numbers in trained_no stand for in this part; records: how many.
    """

    rows: list[RowValues]
    known_from: list[int]
    trained: list[tuple[int, str]]
    records: int


def work_out_parts(
    connection: Connection, policy: Policy, parts: Iterable[Part], processes: int
) -> Iterator[PartRows]:
    """The rows of every part, in order; by as many processes at once."""
    if processes == 1:
        for part in parts:
            yield work_out_part(connection, policy, part)
        return
    # A fork starts at once and shares what is loaded; elsewhere it is not safe.
    context = get_context("fork" if sys.platform == "linux" else "spawn")
    url = connection.engine.url.render_as_string(hide_password=False)
    waiting: deque[Future[PartRows]] = deque()
    with ProcessPoolExecutor(processes, mp_context=context) as pool:
        for part in parts:
            waiting.append(pool.submit(_work_out_alone, url, policy, part))
            if len(waiting) > 2 * processes:  # no more in memory than keeps everybody at work
                yield waiting.popleft().result()
        while waiting:
            yield waiting.popleft().result()


def _work_out_alone(url: str, policy: Policy, part: Part) -> PartRows:
    """The same in a process of its own."""
    with reading_from(engine_at(url)) as connection:
        return work_out_part(connection, policy, part)


def work_out_part(connection: Connection, policy: Policy, part: Part) -> PartRows:
    """All that was ever believed about the people of a part."""
    shared = shared_records(connection)
    numbers = {person: part.first_no + place for place, person in enumerate(part.people)}
    places = qualification_numbers(policy.qualifications)
    trained: dict[tuple[int, str], int] = {}
    found = PartRows([], [STILL_KNOWN] * len(part.people), [], 0)
    for person, events, count in _everybody(connection, shared, part.people):
        found.records += count
        # An authorisation to sign bears on others' standings only, and is about the person too.
        about = (*events, *shared.all_about(person))
        arrivals = [event.recorded_at for event in about if event.person == person]
        if arrivals:
            found.known_from[numbers[person] - part.first_no] = microseconds(min(arrivals))
        for name, interval, since, until in versions_of(events, policy, person):
            said = (places[name], revisions_text(interval.facts.trained))
            row = row_of(
                numbers[person],
                places[name],
                interval,
                trained.setdefault(said, len(trained)) if said[1] else None,
                microseconds(since),
                STILL_KNOWN if until is None else microseconds(until),
            )
            found.rows.append(tuple(row))
    found.trained = list(trained)
    return found


def _everybody(
    connection: Connection, shared: SharedRecords, people: Sequence[str]
) -> Iterator[tuple[str, list[Event], int]]:
    """Each person with all records that bear on them, and how many were read only for them."""
    alone = [person for person in people if person not in shared.groups]
    left = dict.fromkeys(people)
    rows_of_all = _own_rows(connection, alone[0], alone[-1]) if alone else ()
    for person, rows in groupby(rows_of_all, key=lambda row: row[_PERSON]):
        if person in left and person not in shared.groups:
            own = [light_event(dict(zip(LIGHT, row, strict=True))) for row in rows]
            del left[person]
            yield person, [*own, *shared.bearing_on(named_in(own, person))], len(own)
    # Ids that were ever merged, which have each other's records too; people with shared ones only.
    for person in left:
        yield person, events_bearing_on(connection, shared, person), 0


def _own_rows(connection: Connection, first: str, last: str) -> Iterator[Any]:
    """The driver's own rows: in the end these are all the records there are."""
    raw: Any = connection.connection
    if connection.dialect.name == "postgresql":
        with raw.cursor("own_rows") as cursor:
            cursor.itersize = _AT_ONCE
            yield from cursor.execute(_OWN.format("%s"), (first, last))
    else:
        yield from raw.cursor().execute(_OWN.format("?"), (first, last))


def renumbered(part: PartRows, numbers: dict[tuple[int, str], int]) -> list[RowValues]:
    """The rows with the numbers of trained revisions that hold for all parts."""
    own = [numbers.setdefault(said, len(numbers) + 1) for said in part.trained]
    return [row if row[-1] is None else (*row[:-1], own[row[-1]]) for row in part.rows]
