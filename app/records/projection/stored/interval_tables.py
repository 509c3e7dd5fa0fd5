"""The tables of the projection: standings as intervals, worked out from the records.

Nothing here is a source: `lowport records rebuild` makes all of it anew from the table of records.
A row of standing_interval is one fact rectangle: it holds for the days from_day to to_day, as known
from recorded_from until before recorded_to. A board compares millions of these, so days are day
numbers (date.toordinal: 1 is 0001-01-01) and times are microseconds since 1970 in UTC; FOREVER and
STILL_KNOWN stand for "no end". lane and lane_start are where to look for a row, see lanes.py: the
primary key puts the rows of a board side by side.
"""

from sqlalchemy import BigInteger, CheckConstraint, Column, Index, Integer, Table, Text
from sqlalchemy.types import TypeEngine

from app.database import db

_LONG = BigInteger().with_variant(Integer, "sqlite")  # STRICT tables know INTEGER only


def _number(name: str, kind: TypeEngine[int] | type[Integer] = Integer) -> Column[int]:
    return Column(name, kind, nullable=False, autoincrement=False)


standing_projection = Table(
    "standing_projection",
    db.metadata,
    Column("id", Integer, primary_key=True, autoincrement=False),
    Column("policy", Text, nullable=False),  # JSON, see projection_policy.py
    Column("fingerprint", Text, nullable=False),  # of the policy; another one: not to be used
    Column("building", Text, nullable=False),  # which rebuild is at work; empty: none
    _number("through_seq"),  # the records it was worked out from
    _number("latest_at", _LONG),  # the latest time of arrival among them
    _number("is_in_order"),  # whether no record came with an earlier time than one before it
    CheckConstraint("id = 1", name="standing_projection_one_row"),
    sqlite_strict=True,
)

standing_person = Table(
    "standing_person",
    db.metadata,
    Column("no", Integer, primary_key=True, autoincrement=False),
    Column("person", Text, nullable=False, unique=True),
    _number("known_from", _LONG),  # arrival of the first record about them
    sqlite_strict=True,
)

standing_qualification = Table(
    "standing_qualification",
    db.metadata,
    Column("no", Integer, primary_key=True, autoincrement=False),
    Column("qualification", Text, nullable=False, unique=True),
    sqlite_strict=True,
)

# Which revisions somebody has trained, in the order of the qualification's modules: "2,1,1".
standing_trained = Table(
    "standing_trained",
    db.metadata,
    Column("no", Integer, primary_key=True, autoincrement=False),
    _number("qualification_no"),
    Column("revisions", Text, nullable=False),
    Index("standing_trained_once", "qualification_no", "revisions", unique=True),
    sqlite_strict=True,
)

standing_interval = Table(
    "standing_interval",
    db.metadata,
    Column("lane", Integer, primary_key=True, autoincrement=False),
    Column("lane_start", Integer, primary_key=True, autoincrement=False),
    Column("person_no", Integer, primary_key=True, autoincrement=False),
    Column("qualification_no", Integer, primary_key=True, autoincrement=False),
    Column("from_day", Integer, primary_key=True, autoincrement=False),
    Column("recorded_from", _LONG, primary_key=True, autoincrement=False),
    _number("to_day"),
    _number("recorded_to", _LONG),
    _number("held"),  # place in HELD of interval_rows.py
    Column("granted_on", Integer),
    Column("last_good_day", Integer),
    Column("continuity_due_on", Integer),
    Column("decided_on", Integer),
    Column("trained_no", Integer),
    Index(
        "standing_interval_of_person",
        "person_no",
        "qualification_no",
        "recorded_to",
        "from_day",
        "to_day",
    ),
    sqlite_strict=True,
    sqlite_with_rowid=False,
)

TABLES = (
    standing_projection,
    standing_person,
    standing_qualification,
    standing_trained,
    standing_interval,
)
