"""Checking the records: the chain holds, and the columns still say what the bodies say."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, RowMapping, select

from app.records.chain import GENESIS, link
from app.records.columns import LIGHT, SHARED_KINDS, columns_of
from app.records.encoding import event_of
from app.records.reading import Malformed
from app.records.tables import record


@dataclass(frozen=True, slots=True)
class Wrong:
    """The first record that is not as it was written, and what is wrong with it."""

    seq: int
    id: str
    sentence: str


@dataclass(frozen=True, slots=True)
class Verified:
    """How many records hold, the hash of the last of them, and the first wrong one or None."""

    count: int
    last_hash: str
    wrong: Wrong | None


def verify(connection: Connection) -> Verified:
    """Go through all records in order and stop at the first wrong one.

    A chain alone can't show that records were cut off at the end, or that all were rebuilt: keep
    the count and the last hash elsewhere and compare.
    """
    count, previous = 0, GENESIS
    shared: set[str] = set()
    for row in _rows(connection):
        sentence = _what_is_wrong(row, count + 1, previous) or _what_columns_hide(row, shared)
        if sentence is not None:
            return Verified(count, previous.hex(), Wrong(row["seq"], row["id"], sentence))
        count, previous = count + 1, row["hash"]
    return Verified(count, previous.hex(), None)


def _rows(connection: Connection) -> Iterator[RowMapping]:
    columns = [record.c[name] for name in (*LIGHT, "is_shared", "seq", "body", "hash")]
    wanted = select(*columns).order_by(record.c.seq).execution_options(yield_per=1000)
    yield from connection.execute(wanted).mappings()


def _what_is_wrong(row: RowMapping, seq: int, previous: bytes) -> str | None:
    if row["seq"] != seq:
        return f"record {seq} is missing."
    if row["hash"] != link(previous, row["body"]):
        return "its bytes, or its place, are not those it was written with."
    return None


def _what_columns_hide(row: RowMapping, shared: set[str]) -> str | None:
    """Compare the columns with the body; shared collects the ids of the shared records so far."""
    try:
        event = event_of(json.loads(row["body"]), f"record {row['seq']}")
    except Malformed as problem:
        return problem.sentence
    except ValueError:
        return "its bytes can't be read."
    if event.kind in SHARED_KINDS or getattr(event, "target", None) in shared:
        shared.add(event.id)
    expected = {**_EMPTY, **columns_of(event), "is_shared": int(event.id in shared)}
    for name in (*LIGHT, "is_shared"):
        if row[name] != expected[name]:
            return f"its column {name} says {row[name]!r}, its signed bytes {expected[name]!r}."
    return None


# What a column holds for a kind that does not fill it.
_EMPTY: dict[str, Any] = {
    name: None if record.c[name].server_default is None else "" for name in LIGHT
}
