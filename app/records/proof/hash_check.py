"""The quick check: every record's stored bytes hash to what is kept, and none is missing."""

from dataclasses import dataclass
from hashlib import sha256

from sqlalchemy import Connection, select

from app.records.ledger.chain import GENESIS
from app.records.ledger.kept_hashes import KeptHashes
from app.records.ledger.streaming import stored_rows
from app.records.ledger.tables import record


@dataclass(frozen=True, slots=True)
class Wrong:
    """A record that is not as it was written, and what is wrong; id empty where it is gone."""

    seq: int
    id: str
    sentence: str


def first_wrong_hash(connection: Connection, first: int, last: int) -> Wrong | None:
    """The first record from first to last whose bytes are not those it was written with.

    Nothing is decoded: one hash a record, spelled out here because calling chain.link, and putting
    its two parts together in memory, costs as much again as reading them. What is kept with the
    record before first is taken as right; check it too.
    """
    previous = hash_before(connection, first)
    if previous is None:
        return missing(first - 1)
    expected, begin_leaf = first, sha256(b"\x00").copy
    for seq, body, kept in stored_rows(connection, first, last):
        if seq != expected:
            return missing(expected)
        leaf = begin_leaf()
        leaf.update(previous)
        leaf.update(body)
        if leaf.digest() != kept:
            return wrong(connection, seq, BYTES_DIFFER)
        previous = kept
        expected += 1
    return missing(expected) if expected <= last else None


BYTES_DIFFER = "its bytes, or its place, are not those it was written with."


def hash_before(connection: Connection, first: int) -> bytes | None:
    """The hash that record first was linked to; None if the record before it is gone."""
    if first == 1:
        return GENESIS
    try:
        return KeptHashes(connection).leaf(first - 1)
    except KeyError:
        return None


def missing(seq: int) -> Wrong:
    """A record that ought to be there."""
    return Wrong(seq, "", "it is missing.")


def wrong(connection: Connection, seq: int, sentence: str) -> Wrong:
    """A record that is there, by its place."""
    found = connection.scalar(select(record.c.id).where(record.c.seq == seq))
    return Wrong(seq, found or "", sentence)
