"""The public keys of phones that may sign, each registered by its owner while online.

The library for keys is imported where one is read, so that a start need not load it.
"""

import json
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING

from sqlalchemy import Connection, insert, select

from app.accounts.devices import Device, device_by_id
from app.accounts.tables import device_key
from app.ids import PersonId
from app.trade.errors import Refusal

if TYPE_CHECKING:
    from joserfc.jwk import ECKey

ALGORITHMS = ["ES256"]
PUBLIC_MEMBERS = ("crv", "kty", "x", "y")


class NoSuchKey(Refusal):
    """A key that cannot be registered."""

    template = "This phone sent no key that can sign."


class SignatureWrong(Refusal):
    """Bytes whose signature does not hold."""

    template = "The phone's signature does not fit what it signed."


class KeyUnknown(Refusal):
    """A signature by a key that was never registered here for this person."""

    template = "This phone is not registered for signing. Register it, then sign again."


@dataclass(frozen=True, slots=True)
class DeviceKey:
    """A phone's public key; ``id`` is its thumbprint and the ``kid`` of what it signs."""

    id: str
    device_id: str
    person_id: PersonId
    public_key: str
    enrolled_at: datetime


def key_by_id(connection: Connection, key_id: str) -> DeviceKey | None:
    """Return the registered key with this thumbprint, or None."""
    row = connection.execute(select(device_key).where(device_key.c.id == key_id)).first()
    return None if row is None else DeviceKey(**row._mapping)


def keys_of(connection: Connection, person_id: str) -> list[DeviceKey]:
    """Return a person's registered keys, the oldest first."""
    query = select(device_key).where(device_key.c.person_id == person_id)
    rows = connection.execute(query.order_by(device_key.c.enrolled_at))
    return [DeviceKey(**row._mapping) for row in rows]


def all_keys(connection: Connection) -> dict[str, DeviceKey]:
    """Return every registered key by its device, the newest where there are several."""
    rows = connection.execute(select(device_key).order_by(device_key.c.enrolled_at))
    return {row.device_id: DeviceKey(**row._mapping) for row in rows}


def register_key(connection: Connection, device: Device, public_key: str, now: datetime) -> str:
    """Register a key for a device; a second time changes nothing. Returns its thumbprint."""
    jwk = _public(public_key)
    key_id = jwk.thumbprint()
    if key_by_id(connection, key_id) is None:
        connection.execute(
            insert(device_key).values(
                id=key_id,
                device_id=device.id,
                person_id=device.person_id,
                public_key=json.dumps(jwk.as_dict(private=False), sort_keys=True),
                enrolled_at=now.replace(tzinfo=None),
            )
        )
    return key_id


def _public(text: str) -> "ECKey":
    """The key, if it is a bare public key on P-256; raises NoSuchKey."""
    from joserfc.errors import JoseError
    from joserfc.jwk import ECKey

    try:
        given = json.loads(text)
        if sorted(given) != sorted(PUBLIC_MEMBERS) or (given["kty"], given["crv"]) != (
            *("EC", "P-256"),
        ):
            raise NoSuchKey
        return ECKey.import_key(given)
    except (JoseError, ValueError, TypeError, KeyError) as wrong:
        raise NoSuchKey from wrong


def verified_by(public_key: str, compact: str, typ: str, kid: str) -> bytes:
    """The bytes that were signed, once the signature holds.

    compact: a compact JWS whose header has exactly alg ES256, this typ and this kid; nothing in
    the header chooses the key. Raises SignatureWrong.
    """
    from joserfc import jws
    from joserfc.errors import JoseError

    try:
        found = jws.deserialize_compact(compact, _public(public_key), algorithms=ALGORITHMS)
    except (JoseError, ValueError, UnicodeError) as wrong:
        raise SignatureWrong from wrong
    if found.headers() != {"alg": "ES256", "typ": typ, "kid": kid}:
        raise SignatureWrong
    return found.payload


def registered_key(
    connection: Connection, compact: str, person_id: str
) -> tuple[DeviceKey, Device]:
    """The key that the header names, if it is registered for this person; raises KeyUnknown."""
    from joserfc import jws
    from joserfc.errors import JoseError

    try:
        kid = jws.extract_compact(compact.encode()).headers().get("kid", "")
    except (JoseError, ValueError, UnicodeError) as wrong:
        raise SignatureWrong from wrong
    key = key_by_id(connection, kid) if isinstance(kid, str) else None
    device = device_by_id(connection, key.device_id) if key else None
    if key is None or device is None or key.person_id != person_id:
        raise KeyUnknown
    return key, device
