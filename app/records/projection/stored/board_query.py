"""The one query behind a board: the rows of the projection that hold at a point.

Everything in it is a whole number, so the numbers stand in its text.
"""

from collections.abc import Collection, Iterable

from sqlalchemy import Connection

from app.driver import fetched
from app.records.projection.pure.lanes import Stretch, stretches
from app.records.standing.definition import Status

# What the column "said" of the query stands for; the first four are the numbers of HELD.
SAID: tuple[Status, ...] = (
    "not-qualified",
    "current",
    "suspended",
    "revoked",
    "expired",
    "lapsed",
    "update-needed",
)
# person_no, qualification_no, place in SAID, last_good_day, continuity_due_on, decided_on,
# trained_no
BoardRow = tuple[int, int, int, int | None, int | None, int | None, int | None]

_FEW = 200  # people for whom it is quicker to look up each than to read the lanes


def board_rows(
    connection: Connection,
    as_of_day: int,
    known_at: int,
    overdue: Iterable[int],
    qualification_no: int | None,
    person_nos: Collection[int] | None,
) -> list[BoardRow]:
    """The rows that hold on a day as known at a time; no row: not qualified.

    overdue: numbers of trained revisions whose grace has run out; qualification_no, person_nos:
    only these, None: all.
    """
    if person_nos is not None and not person_nos:
        return []
    source, where = "standing_interval i", []
    if person_nos is None or len(person_nos) > _FEW:
        # SQLite goes through a CROSS JOIN in the order written; PostgreSQL takes no ON with it.
        source, where = "lanes CROSS JOIN standing_interval i", [_IN_LANE]
    where += [
        f"i.from_day <= {as_of_day}",
        f"i.recorded_from <= {known_at}",
        f"i.to_day >= {as_of_day}",
        f"i.recorded_to > {known_at}",
    ]
    if person_nos is not None:
        where.append(f"i.person_no IN ({_listed(person_nos)})")
    if qualification_no is not None:
        where.append(f"i.qualification_no = {qualification_no:d}")
    text = (
        f"WITH lanes (lane, low, high) AS (VALUES {_values(stretches(as_of_day, known_at))})"
        f" SELECT i.person_no, i.qualification_no, {_said(as_of_day, overdue)},"
        " i.last_good_day, i.continuity_due_on, i.decided_on, i.trained_no"
        f" FROM {source} WHERE {' AND '.join(where)}"
    )
    return fetched(connection, text)


_IN_LANE = "i.lane = lanes.lane AND i.lane_start BETWEEN lanes.low AND lanes.high"


def _said(as_of_day: int, overdue: Iterable[int]) -> str:
    """Rule 11 in SQL, as status_on() has it."""
    late = _listed(overdue)
    update = f" WHEN i.trained_no IN ({late}) THEN 6" if late else ""
    return (
        f"CASE WHEN i.held <> 1 THEN i.held WHEN i.last_good_day < {as_of_day} THEN 4"
        f" WHEN i.continuity_due_on < {as_of_day} THEN 5{update} ELSE 1 END"
    )


def _values(found: Iterable[Stretch]) -> str:
    return ",".join(f"({s.lane:d},{s.low:d},{s.high:d})" for s in found)


def _listed(numbers: Iterable[int]) -> str:
    return ",".join(f"{number:d}" for number in numbers)
