"""Taking one item in: whose it is, whether it came before, what is done with it, its receipt."""

from datetime import UTC, datetime
from typing import Any

from flask_babel import gettext as _
from sqlalchemy import Connection

from app.accounts.devices import Device, DeviceOfAnother, note_device
from app.accounts.people import Person, person_by_id
from app.database import writing
from app.trade.errors import Refusal
from app.web.outbox.items import Item, ItemRefused, read_item
from app.web.outbox.kinds import Arrival, Kind, kind_named
from app.web.telling import tell
from app.workbook.receipts import Receipt, keep_receipt, receipt_by_id


def take_in(
    text: str, sender: Person, label: str, now: datetime, *, is_file: bool = False
) -> tuple[Receipt, bool]:
    """Do what an item asks, once. Returns its receipt and whether this was the first time.

    Everything happens in one writing transaction: all of it is kept, or none. Raises ItemRefused.
    """
    item = read_item(text)
    kind = kind_named(item.kind)
    if len(text.encode()) > kind.largest:
        raise ItemRefused(413, "too-large", _("This is too large to send."))
    if not is_file and item.person_id != sender.id:
        sentence = _("Somebody else made this. It waits until they sign in here.")
        raise ItemRefused(403, "other-person", sentence)
    with writing() as connection:
        known = receipt_by_id(connection, item.id)
        if known is not None:
            return _first_receipt(known, item), False
        person = _owner(connection, item, kind, sender, is_file)
        device = _device(connection, item, kind, label, now)
        carrier = sender if is_file and sender.id != person.id else None
        arrival = Arrival(item, person, device, now, carrier)
        receipt = _receipt(arrival, _done(connection, kind, arrival))
        keep_receipt(connection, receipt)
    return receipt, True


def _first_receipt(known: Receipt, item: Item) -> Receipt:
    if known.digest != item.digest:
        raise ItemRefused(409, "other-bytes", _("Something else arrived under this number before."))
    return known


def _done(connection: Connection, kind: Kind, arrival: Arrival) -> dict[str, Any]:
    """What the handler did; a refusal of the trade or the records becomes the phone's sentence."""
    try:
        return kind.handler(connection, arrival)
    except Refusal as refusal:
        raise ItemRefused(422, type(refusal).__name__, tell(refusal)) from refusal


def _owner(connection: Connection, item: Item, kind: Kind, sender: Person, is_file: bool) -> Person:
    owner = sender
    if item.person_id != sender.id:
        found = person_by_id(connection, item.person_id)
        if found is None:
            raise ItemRefused(422, "unknown-person", _("Nobody here has made this."))
        if not kind.may_come_by_file:
            sentence = _("This must be sent by the person who made it, signed in on that phone.")
            raise ItemRefused(403, "not-by-file", sentence)
        owner = found
    if kind.role and not owner.has_role(kind.role):
        raise ItemRefused(403, "other-role", _("Your role can't send this."))
    return owner


def _device(connection: Connection, item: Item, kind: Kind, label: str, now: datetime) -> Device:
    try:
        device = note_device(connection, item.device_id, item.person_id, item.sequence, label, now)
    except DeviceOfAnother as refusal:
        raise ItemRefused(422, "device-of-another", refusal.sentence) from refusal
    if device.is_revoked and not kind.takes_revoked:
        sentence = _("This phone was reported lost. Show it to a safety officer.")
        raise ItemRefused(403, "device-revoked", sentence)
    return device


def _receipt(arrival: Arrival, result: dict[str, Any]) -> Receipt:
    item = arrival.item
    offset = item.claimed_at.utcoffset()
    assert offset is not None
    return Receipt(
        id=item.id,
        digest=item.digest,
        kind=item.kind,
        person_id=arrival.person.id,
        device_id=arrival.device.id,
        sequence=item.sequence,
        claimed_at=_naive(item.claimed_at),
        claimed_offset_min=int(offset.total_seconds() // 60),
        server_seen_at=_naive(item.server_seen_at) if item.server_seen_at else None,
        arrived_at=_naive(arrival.arrived_at),
        carried_by=arrival.carried_by.id if arrival.carried_by else None,
        result=result,
    )


def _naive(moment: datetime) -> datetime:
    return moment.astimezone(UTC).replace(tzinfo=None)
