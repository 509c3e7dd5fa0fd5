"""What was signed on phones, by observation: exact bytes, the phone's times, what became of it."""

import hashlib
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, insert, select, update

from app.workbook.sign_off_tables import phone_sign_off
from app.workbook.tables import observation


@dataclass(frozen=True, slots=True)
class PhoneSignOff:
    """One sign-off as a phone sent it. ``way``: device (a key signed) or password (to confirm).

    ``claimed_at`` and ``server_seen_at`` are the phone's own text; the other times are naive UTC.
    ``recorded_at`` is None while it waits for the password.
    """

    observation_id: str
    way: str
    signed_text: str
    key_id: str
    device_id: str
    sequence: int
    claimed_at: str
    server_seen_at: str
    arrived_at: datetime
    recorded_at: datetime | None = None

    @property
    def sha256(self) -> str:
        """The hash of the exact bytes."""
        return hashlib.sha256(self.signed_text.encode()).hexdigest()


_NAMES = tuple(PhoneSignOff.__dataclass_fields__)


def keep_sign_off(connection: Connection, sign_off: PhoneSignOff) -> None:
    """Keep a sign-off; one that still waits for the password is replaced by a newer one."""
    values: dict[str, Any] = {name: getattr(sign_off, name) for name in _NAMES}
    values["sha256"] = sign_off.sha256
    where = phone_sign_off.c.observation_id == sign_off.observation_id
    if sign_off_of(connection, sign_off.observation_id) is None:
        connection.execute(insert(phone_sign_off).values(values))
    else:
        where &= phone_sign_off.c.recorded_at.is_(None)
        connection.execute(update(phone_sign_off).where(where).values(values))


def sign_off_of(connection: Connection, observation_id: str) -> PhoneSignOff | None:
    """Return what a phone sent for this observation, or None."""
    columns = [phone_sign_off.c[name] for name in _NAMES]
    where = phone_sign_off.c.observation_id == observation_id
    row = connection.execute(select(*columns).where(where)).first()
    return None if row is None else PhoneSignOff(*row)


def mark_recorded(connection: Connection, observation_id: str, now: datetime) -> None:
    """Note that the record stands."""
    where = phone_sign_off.c.observation_id == observation_id
    values = {"recorded_at": now.replace(tzinfo=None)}
    connection.execute(update(phone_sign_off).where(where).values(values))


def waiting_for_password(connection: Connection, trainer_id: str) -> list[PhoneSignOff]:
    """Return a trainer's sign-offs that still have to be confirmed, the oldest first."""
    columns = [phone_sign_off.c[name] for name in _NAMES]
    query = (
        select(*columns)
        .join(observation, observation.c.id == phone_sign_off.c.observation_id)
        .where(observation.c.trainer_id == trainer_id, phone_sign_off.c.recorded_at.is_(None))
        .where(observation.c.signed_at.is_(None), observation.c.dropped_at.is_(None))
    )
    return [
        PhoneSignOff(*row)
        for row in connection.execute(query.order_by(phone_sign_off.c.arrived_at))
    ]
