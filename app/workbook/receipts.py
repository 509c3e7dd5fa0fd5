"""Receipts for what phones sent: the same thing twice gets the first one; gaps are seen."""

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, insert, select

from app.workbook.outbox_tables import outbox_receipt


@dataclass(frozen=True, slots=True)
class Receipt:
    """That one item of a phone was taken in, once. Times are naive UTC.

    ``claimed_at`` is the phone's own time and ``claimed_offset_min`` its offset from UTC;
    ``server_seen_at`` the last time of ours that the phone had seen; ``carried_by`` who brought
    the item in as a file, None when the phone sent it itself.
    """

    id: str
    digest: str
    kind: str
    person_id: str
    device_id: str
    sequence: int
    claimed_at: datetime
    claimed_offset_min: int
    server_seen_at: datetime | None
    arrived_at: datetime
    carried_by: str | None
    result: dict[str, Any]


def keep_receipt(connection: Connection, receipt: Receipt) -> None:
    """Keep a receipt; call it in the transaction that does what it is for."""
    values = {name: getattr(receipt, name) for name in Receipt.__dataclass_fields__}
    values["result"] = json.dumps(receipt.result)
    connection.execute(insert(outbox_receipt).values(values))


def receipt_by_id(connection: Connection, item_id: str) -> Receipt | None:
    """Return the receipt of the item with this id, or None."""
    where = outbox_receipt.c.id == item_id
    row = connection.execute(select(outbox_receipt).where(where)).first()
    return None if row is None else _receipt(row)


def receipts_from(connection: Connection, device_id: str) -> list[Receipt]:
    """Return what arrived from a device, in the order the device counted."""
    query = select(outbox_receipt).where(outbox_receipt.c.device_id == device_id)
    ordered = query.order_by(outbox_receipt.c.sequence, outbox_receipt.c.arrived_at)
    return [_receipt(row) for row in connection.execute(ordered)]


def _receipt(row: Row[Any]) -> Receipt:
    values = dict(row._mapping)
    values["result"] = json.loads(values["result"])
    return Receipt(**values)


@dataclass(frozen=True, slots=True)
class Gap:
    """Numbers of a device that have not arrived, both ends included: still on that phone."""

    first: int
    last: int

    @property
    def count(self) -> int:
        """How many things are missing."""
        return self.last - self.first + 1


def sequence_gaps(connection: Connection, device_id: str, last_sequence: int) -> list[Gap]:
    """Return what a device has numbered up to ``last_sequence`` and not delivered yet.

    ``last_sequence`` from app.accounts.devices: the phone tells the highest number with each
    sending, so what is missing at the end is seen too.
    """
    query = select(outbox_receipt.c.sequence).where(outbox_receipt.c.device_id == device_id)
    return gaps_between(set(connection.scalars(query)), last_sequence)


def gaps_between(arrived: set[int], last_sequence: int) -> list[Gap]:
    """Return the runs of missing numbers from 1 to the last one.

    Example: gaps_between({1, 2, 5}, 7) == [Gap(3, 4), Gap(6, 7)].
    """
    gaps, before = [], 0
    for number in [*sorted(n for n in arrived if n <= last_sequence), last_sequence + 1]:
        if number - before > 1:
            gaps.append(Gap(before + 1, number - 1))
        before = number
    return gaps
