"""The deep check: also that columns say what the bodies say, and nodes what the leaves make."""

import json
from collections.abc import Iterator
from typing import Any

from sqlalchemy import Connection, RowMapping, select

from app.records.ledger.chain import link
from app.records.ledger.columns import LIGHT, SHARED_KINDS, columns_of
from app.records.ledger.encoding import event_of
from app.records.ledger.kept_hashes import KeptHashes
from app.records.ledger.tables import IS_SHARED, record
from app.records.ledger.tree import node_hash, peaks
from app.records.proof.hash_check import BYTES_DIFFER, Wrong, hash_before, missing
from app.records.reading import Malformed


def first_wrong_deep(connection: Connection, first: int, last: int) -> Wrong | None:
    """The first record from first to last that is wrong in its bytes, its columns or its node.

    What is kept with the records before first is taken as right; check them too.
    """
    previous = hash_before(connection, first)
    if previous is None:
        return missing(first - 1)
    before = _Before(connection, first, previous)
    for row in _rows(connection, first, last):
        if row["seq"] != before.seq:
            return missing(before.seq)
        sentence = before.what_is_wrong(row)
        if sentence is not None:
            return Wrong(row["seq"], row["id"], sentence)
    return missing(before.seq) if before.seq <= last else None


class _Before:
    """What the records before the next one come to: hash, full subtrees, ids of shared ones."""

    def __init__(self, connection: Connection, first: int, previous: bytes) -> None:
        self.seq, self.hash = first, previous
        # The largest subtree first, as a stack.
        self.subtrees = KeptHashes(connection).nodes(list(peaks(first - 1)))[::-1]
        shared = select(record.c.id).where(IS_SHARED, record.c.seq < first)
        self.shared = set(connection.scalars(shared))

    def what_is_wrong(self, row: RowMapping) -> str | None:
        """The sentence for the next record, or None; moves on past it."""
        if row["hash"] != link(self.hash, row["body"]):
            return BYTES_DIFFER
        node, level = row["hash"], self.seq
        while not level & 1:
            node, level = node_hash(self.subtrees.pop(), node), level >> 1
        if row["node"] != node:
            return "the node of the tree kept with it is not the one its bytes make."
        self.subtrees.append(node)
        self.seq, self.hash = self.seq + 1, row["hash"]
        return _what_columns_hide(row, self.shared)


def _rows(connection: Connection, first: int, last: int) -> Iterator[RowMapping]:
    columns = [record.c[name] for name in (*LIGHT, "is_shared", "seq", "body", "hash", "node")]
    wanted = select(*columns).where(record.c.seq.between(first, last)).order_by(record.c.seq)
    yield from connection.execute(wanted.execution_options(yield_per=1000)).mappings()


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
