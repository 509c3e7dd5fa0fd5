"""A large firm with a long past, straight into the table of records. Everything is invented.

5,000 people hold 10 qualifications each. In each of them a person is granted after a supervised
repair, then does a job about every 60 days, with one of six trainers; after nine jobs a repair and
a new grant follow. All pass a quiz every 300 days and train again after each yearly revision. One
job in a hundred is recorded 20 days late (half of those countersigned), one in 200 is countered,
one in 500 is followed by a suspension of ten days. Bodies and hashes are filler: nothing here
reads them.
"""

import os
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from random import Random
from typing import Any

from sqlalchemy import Engine, text

from app.database import writing_to
from app.records.ledger.encoding import stamp
from app.records.ledger.tables import record
from app.records.ledger.triggers import TRIGGERS
from app.records.policy import Policy, QualificationPolicy
from app.records.projection.stored.interval_tables import TABLES

PEOPLE, QUALIFICATIONS, TRAINERS = 5000, 10, 100
PER_STEP = 52_600  # records, about, for each repair, job or grant in every person's every trade
NAMES = [f"trade-{number}" for number in range(QUALIFICATIONS)]
POLICY = Policy(
    {
        name: QualificationPolicy(
            id=name, modules=("gear",), practicals_required=1, trainers_required=1
        )
        for name in NAMES
    }
)
OPENED_ON = date(2010, 1, 4)
GAP_DAYS, CYCLE = 60, 11
_BODY = b'{"filler":"' + b"x" * 500 + b'"}'
_AT_ONCE = 50_000

# When it arrived (seconds since opening), day since opening, kind, person, qualification, what
# else; the last two make the id of the record.
Told = tuple[int, int, str, int, int, int, int]


@dataclass(frozen=True, slots=True)
class Firm:
    """What was written: how many records, over how many days, and when the last one arrived."""

    records: int
    days: int
    until: datetime


def person_id(number: int) -> str:
    return f"{number:08x}-0000-7000-8000-0000000000aa"


def trainer_id(number: int) -> str:
    return f"{number:08x}-0000-7000-8000-0000000000bb"


def record_id(person: int, qualification: int, number: int) -> str:
    return f"{person:08x}-{qualification:04x}-7000-8000-{number:012x}"


def found(engine: Engine, per_cell: int) -> Firm:
    """Create the tables; fill them with so many repairs, jobs and grants per person and trade."""
    told = sorted(_everything(per_cell))
    with writing_to(engine) as connection:
        for table in (record, *TABLES):
            table.create(connection)
        raw: Any = connection.connection
        columns = [column.name for column in record.columns]
        places = ",".join("?" * len(columns))
        insert = f"INSERT INTO record ({','.join(columns)}) VALUES ({places})"
        for start in range(0, len(told), _AT_ONCE):
            part = told[start : start + _AT_ONCE]
            raw.executemany(insert, [_row(start + i + 1, each) for i, each in enumerate(part)])
        for trigger in TRIGGERS["sqlite"]:
            connection.execute(text(trigger))
    return Firm(len(told), max(each[1] for each in told), arrived_at(told[-1][0]))


def _everything(per_cell: int) -> Iterator[Told]:
    chance = Random(20260302)
    days = per_cell * GAP_DAYS
    for trainer in range(TRAINERS):
        for q in range(QUALIFICATIONS):
            yield trainer, 0, "trainer-authorised", trainer, q, 0, 0
    revisions = list(range(365, days, 365))
    for number, day in enumerate(revisions):
        yield _noon(day), day, "content-revised", 0, 0, number + 2, number
    for person in range(PEOPLE):
        joined = 1 + chance.randrange(GAP_DAYS)
        yield from _learning(person, joined, joined + days, revisions)
        for q in range(QUALIFICATIONS):
            yield from _working(chance, person, q, joined + 1, per_cell)


def _noon(day: int) -> int:
    return day * 86_400 + 43_200


def _learning(person: int, joined: int, until: int, revisions: list[int]) -> Iterator[Told]:
    number = 0
    trained = [joined, *(day + 10 for day in revisions if day > joined)]
    for revision, day in enumerate(trained):
        yield _noon(day), day, "training", person, QUALIFICATIONS, revision + 1, number
        number += 1
    for day in range(joined, until, 300):
        yield _noon(day) + 60, day, "quiz", person, QUALIFICATIONS, 0, number
        number += 1


def _working(chance: Random, person: int, q: int, joined: int, per_cell: int) -> Iterator[Told]:
    day, number = joined, 0
    own = Random(person).sample(range(TRAINERS), 6)
    for step in range(per_cell):
        kind = ("practical", "grant")[step % CYCLE] if step % CYCLE < 2 else "use"
        arrived = _noon(day) + chance.randrange(20_000)
        luck = chance.random() if kind == "use" else 1.0
        if luck < 0.01:
            arrived += 20 * 86_400
        trainer = chance.choice(own)
        yield arrived, day, kind, person, q, trainer, number
        for told in _aftermath(luck, arrived, day, person, q, number):
            number += 1
            yield (*told, number)
        number += 1
        day += 1 if kind == "practical" else GAP_DAYS - 10 + chance.randrange(20)


def _aftermath(
    luck: float, arrived: int, day: int, person: int, q: int, number: int
) -> Iterator[tuple[int, int, str, int, int, int]]:
    if luck < 0.005:
        yield arrived + 86_400 * 3, day + 23, "countersign", person, q, number
    elif 0.02 < luck < 0.025:
        yield arrived + 86_400 * 5, day + 5, "counter-entry", person, q, number
    elif 0.03 < luck < 0.032:
        yield arrived + 86_400 * 2, day + 2, "suspend", person, q, 0
        yield arrived + 86_400 * 12, day + 12, "lift", person, q, 0


def _row(seq: int, told: Told) -> tuple[Any, ...]:
    arrived, day, kind, person, q, what, number = told
    is_shared = kind in ("trainer-authorised", "content-revised")
    named = NAMES[q] if q < QUALIFICATIONS and kind != "content-revised" else ""
    about = {"trainer-authorised": trainer_id(person), "content-revised": ""}
    module = "gear" if kind in ("training", "quiz", "content-revised") else ""
    return (
        seq,
        f"s{seq:035d}" if is_shared else record_id(person, q, number),
        kind,
        (OPENED_ON + timedelta(days=day)).isoformat(),
        "UTC",
        stamp(arrived_at(arrived)),
        "officer",
        about.get(kind, person_id(person)),
        named,
        module,
        what if kind in ("training", "content-revised") else 1 if kind == "quiz" else None,
        _signer(kind, what),
        f"job-{seq:032d}" if kind in ("practical", "use") else "",
        1 if kind in ("practical", "use", "quiz") else None,
        "",
        record_id(person, q, what) if kind in ("countersign", "counter-entry") else "",
        "major" if kind == "content-revised" else "",
        "",
        int(is_shared),
        _BODY,
        os.urandom(32),
        os.urandom(32),
    )


def _signer(kind: str, what: int) -> str:
    if kind in ("practical", "use"):
        return trainer_id(what)
    if kind == "countersign":
        return trainer_id(TRAINERS - 1)
    return "officer" if kind in ("grant", "suspend", "lift") else ""


def arrived_at(seconds: int) -> datetime:
    """The time of so many seconds since the firm opened."""
    opened = datetime(OPENED_ON.year, OPENED_ON.month, OPENED_ON.day, tzinfo=UTC)
    return opened + timedelta(seconds=seconds)
