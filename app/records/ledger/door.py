"""The one door to the records: append, and read back. Call append inside database.writing()."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime
from functools import cache
from typing import Any

from sqlalchemy import Connection, Row, Select, or_, select

from app.driver import fetched, sent
from app.records.days import end_of_knowledge
from app.records.events import CounterEntry, Countersign, Event, IdentityMerged, WorkerCountersign
from app.records.ledger.canonical import canonical
from app.records.ledger.chain import GENESIS, link
from app.records.ledger.columns import LIGHT, SHARED_KINDS, columns_of, light_event
from app.records.ledger.encoding import data_of, event_of, stamp
from app.records.ledger.resending import without_arrival
from app.records.ledger.tables import IS_SHARED, record
from app.records.ledger.tree import folded, lefts_of
from app.records.projection.stored.projecting import project
from app.trade.errors import Refusal


class IdTaken(Refusal):
    """Another record with other content has this id."""

    template = "Another record already has the id {id}. Nothing was saved."


class UnknownRecord(Refusal):
    """A record points to one that is not there."""

    template = "There is no record {id} about the same person."


_LAST = "SELECT seq, hash, node FROM record ORDER BY seq DESC LIMIT 1"
_NODE = "SELECT node FROM record WHERE seq = ?"


@dataclass(frozen=True, slots=True)
class Receipt:
    """Proof of keeping. is_repeat: the same record was here already, and this is its first one."""

    seq: int
    id: str
    hash: str
    recorded_at: datetime
    is_repeat: bool


def append(connection: Connection, event: Event) -> Receipt:
    """Keep an event as the next record; the same again gets the first receipt.

    Raises IdTaken, UnknownRecord, NotCanonical. Times of arrival do not make another record.
    """
    if fetched(connection, "SELECT 1 FROM record WHERE id = ?", (event.id,)):
        return _receipt_again(connection, event)
    newest, previous, node = next(iter(fetched(connection, _LAST)), (0, GENESIS, b""))
    seq = newest + 1
    body = canonical(data_of(event))
    leaf = link(bytes(previous), body)
    row = {
        **columns_of(event),
        "seq": seq,
        "is_shared": int(_is_shared(connection, event)),
        "body": body,
        "hash": leaf,
        "node": folded(leaf, _nodes_left_of(connection, seq, bytes(node))),
    }
    sent(connection, _insert_of(tuple(row)), tuple(row.values()))
    project(connection, event, seq)
    return Receipt(seq, event.id, leaf.hex(), event.recorded_at, is_repeat=False)


@cache
def _insert_of(columns: tuple[str, ...]) -> str:
    """The statement for a row of these columns; the others keep their defaults."""
    return f"INSERT INTO record ({', '.join(columns)}) VALUES ({', '.join('?' * len(columns))})"


def _nodes_left_of(connection: Connection, seq: int, newest: bytes) -> list[bytes]:
    """The nodes that make that of record seq: none for odd ones, the last record's first."""
    lefts = lefts_of(seq)
    further = (fetched(connection, _NODE, (left,)) for left in lefts[1:])
    return [newest, *(bytes(node) for ((node,),) in further)] if lefts else []


def _receipt_again(connection: Connection, event: Event) -> Receipt:
    earlier = connection.execute(_rows().where(record.c.id == event.id)).one()
    first = _event(earlier)
    # Compared as bytes, since the bytes are NFC and the event may not be yet.
    if _content(first) != _content(event):
        raise IdTaken(id=event.id)
    return Receipt(earlier.seq, first.id, earlier.hash.hex(), first.recorded_at, is_repeat=True)


def _content(event: Event) -> bytes:
    return canonical(data_of(without_arrival(event)))


def _is_shared(connection: Connection, event: Event) -> bool:
    """Whether a record bears on everybody: by its kind, or because what it counters does."""
    if not isinstance(event, CounterEntry | Countersign | WorkerCountersign):
        return event.kind in SHARED_KINDS
    target = connection.execute(
        select(record.c.person, record.c.is_shared).where(record.c.id == event.target)
    ).first()
    if target is None or target.person != event.person:
        raise UnknownRecord(id=event.target)
    return bool(target.is_shared)


def receipt_of(connection: Connection, record_id: str) -> Receipt | None:
    """The receipt of a record that is here; None if it is not."""
    row = connection.execute(_rows().where(record.c.id == record_id)).first()
    if row is None:
        return None
    return Receipt(row.seq, record_id, row.hash.hex(), _event(row).recorded_at, is_repeat=True)


def event_by_id(connection: Connection, record_id: str) -> Event | None:
    """One event; None if there is no such record."""
    row = connection.execute(_rows().where(record.c.id == record_id)).first()
    return None if row is None else _event(row)


def all_events(connection: Connection, known_on: date | datetime | None = None) -> Iterator[Event]:
    """Every event in order of arrival."""
    for row in connection.execute(_known(_rows(), known_on).order_by(record.c.seq)):
        yield _event(row)


def history_of(
    connection: Connection, *people: str, known_on: date | datetime | None = None
) -> list[Event]:
    """All that bears on these people's standing: their records, merged ids' and the shared ones.

    Without people: the shared ones alone. In order of arrival.
    """
    ids = _ids_of(connection, people)
    wanted = _rows().where(or_(record.c.person.in_(ids), IS_SHARED))
    rows = connection.execute(_known(wanted, known_on).order_by(record.c.seq))
    return [_event(row) for row in rows]


def light_events(
    connection: Connection, known_on: date | datetime | None = None
) -> Iterator[Event]:
    """Every event with no more than a standing needs, from columns only; for a board."""
    columns = [record.c[name] for name in LIGHT]
    wanted = _known(select(*columns), known_on).order_by(record.c.seq)
    for row in connection.execute(wanted).mappings():
        yield light_event(row)


def _rows() -> Select[Any]:
    return select(record.c.seq, record.c.body, record.c.hash)


def _known(wanted: Select[Any], known_on: date | datetime | None) -> Select[Any]:
    if known_on is None:
        return wanted
    return wanted.where(record.c.recorded_at <= stamp(end_of_knowledge(known_on)))


def _event(row: Row[Any]) -> Event:
    return event_of(json.loads(row.body), f"record {row.seq}")


def _ids_of(connection: Connection, people: tuple[str, ...]) -> set[str]:
    """The people's ids and all ids ever merged with them; a void merge only brings some more."""
    rows = connection.execute(
        select(record.c.person, record.c.target).where(record.c.kind == IdentityMerged.kind)
    ).all()
    ids = set(people)
    grown = 0
    while grown != len(ids):
        grown = len(ids)
        for kept, merged in rows:
            if kept in ids or merged in ids:
                ids |= {kept, merged}
    return ids
