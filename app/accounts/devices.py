"""Phones: whose each is, how far it has numbered what it sends, and whether it was reported lost.

A phone makes one id for each person who works on it, so a shared phone is a device for each.
"""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, insert, select, update

from app.accounts.tables import device
from app.ids import PersonId
from app.trade.errors import Refusal


class DeviceOfAnother(Refusal):
    """The device's id is already somebody else's."""

    template = "This phone's number {device} belongs to somebody else."


@dataclass(frozen=True, slots=True)
class Device:
    """One person's phone. ``last_sequence`` is the highest number it has given out, as we know."""

    id: str
    person_id: PersonId
    label: str
    last_sequence: int
    created_at: datetime
    seen_at: datetime
    revoked_at: datetime | None
    revoked_by: PersonId | None

    @property
    def is_revoked(self) -> bool:
        """Say whether a safety officer has reported it lost."""
        return self.revoked_at is not None


def device_by_id(connection: Connection, device_id: str) -> Device | None:
    """Return the device with this id, or None."""
    row = connection.execute(select(device).where(device.c.id == device_id)).first()
    return None if row is None else Device(**row._mapping)


def devices_of(connection: Connection, person_id: str) -> list[Device]:
    """Return a person's devices, the oldest first."""
    query = select(device).where(device.c.person_id == person_id).order_by(device.c.created_at)
    return [Device(**row._mapping) for row in connection.execute(query)]


def all_devices(connection: Connection) -> list[Device]:
    """Return every device, by person and age."""
    query = select(device).order_by(device.c.person_id, device.c.created_at)
    return [Device(**row._mapping) for row in connection.execute(query)]


def note_device(
    connection: Connection,
    device_id: str,
    person_id: str,
    sequence: int,
    label: str,
    now: datetime,
) -> Device:
    """Note that a device was heard from, up to a number; a new one is added under its label.

    Raises DeviceOfAnother when the id is somebody else's.
    """
    known = device_by_id(connection, device_id)
    if known is None:
        _add(connection, device_id, person_id, sequence, label, now)
    elif known.person_id != person_id:
        raise DeviceOfAnother(device=device_id)
    else:
        values = {
            "last_sequence": max(known.last_sequence, sequence),
            "seen_at": now.replace(tzinfo=None),
        }
        connection.execute(update(device).where(device.c.id == device_id).values(values))
    found = device_by_id(connection, device_id)
    assert found is not None
    return found


def _add(
    connection: Connection,
    device_id: str,
    person_id: str,
    sequence: int,
    label: str,
    now: datetime,
) -> None:
    moment = now.replace(tzinfo=None)
    connection.execute(
        insert(device).values(
            id=device_id,
            person_id=person_id,
            label=label[:80],
            last_sequence=sequence,
            created_at=moment,
            seen_at=moment,
        )
    )


def revoke_device(connection: Connection, device_id: str, by: str, now: datetime) -> None:
    """Report a device lost; a second time changes nothing, the first time stands."""
    where = (device.c.id == device_id) & device.c.revoked_at.is_(None)
    values = {"revoked_at": now.replace(tzinfo=None), "revoked_by": by}
    connection.execute(update(device).where(where).values(values))
