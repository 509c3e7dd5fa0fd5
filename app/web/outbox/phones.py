"""What a phone tells about itself: what kind it is, and how far it has numbered its things."""

from datetime import datetime
from typing import Any

from flask_babel import gettext as _
from sqlalchemy import Connection

from app.accounts.devices import DeviceOfAnother, all_devices, device_by_id, note_device
from app.accounts.people import Person
from app.web.outbox.items import LARGEST_SEQUENCE
from app.web.unkeepable import is_unkeepable
from app.workbook.receipts import Gap, sequence_gaps

_KINDS = (("iPhone", "iPhone"), ("iPad", "iPad"), ("Android", "Android"), ("Mobile", "Phone"))


def label_of(user_agent: str) -> str:
    """Return a first name for a device, until somebody gives it a better one."""
    return next((label for mark, label in _KINDS if mark in user_agent), _("Computer"))


def note_issued(connection: Connection, issued: Any, sender: Person, now: datetime) -> None:
    """Keep the highest number each of the sender's devices says it gave out; ignore the rest."""
    for device_id, number in issued.items() if isinstance(issued, dict) else ():
        is_number = type(number) is int and 1 <= number <= LARGEST_SEQUENCE
        is_asked = is_number and not is_unkeepable(device_id)
        known = device_by_id(connection, device_id) if is_asked else None
        if known is None:
            continue
        try:
            note_device(connection, device_id, sender.id, number, known.label, now)
        except DeviceOfAnother:
            continue


def gaps_by_device(connection: Connection) -> dict[str, list[Gap]]:
    """Return, by device id, what is still on a phone; devices without a gap are left out."""
    found = {
        one.id: sequence_gaps(connection, one.id, one.last_sequence)
        for one in all_devices(connection)
    }
    return {name: gaps for name, gaps in found.items() if gaps}
