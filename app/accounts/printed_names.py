"""The names under signatures: records keep a seal, the name itself stands where it can be erased.

A seal is HMAC-SHA256 of the name under a key of the person's own (RFC 2104). With the key and the
name anybody can check it; once both are erased it says nothing about the name, since the key had
32 random bytes. The same name of the same person has the same seal, so a form sent twice is one
record.
"""

import hmac
import re
import secrets
import unicodedata
from hashlib import sha256

from sqlalchemy import Connection, delete, insert, select

from app.accounts.tables import name_key, signed_name

_SEAL = re.compile(r"[0-9a-f]{64}")


def is_seal(text: str) -> bool:
    """Whether a signature holds a seal; else it is a name as it was written."""
    return _SEAL.fullmatch(text) is not None


def seal_of(key: bytes, name: str) -> str:
    """The seal of a name, 64 hex digits. Example: ``seal_of(key, "Ana Invented")``."""
    return hmac.new(key, unicodedata.normalize("NFC", name).encode(), sha256).hexdigest()


def seal_name(connection: Connection, person_id: str, name: str) -> str:
    """Keep a name that is about to stand under a signature; return its seal. Call while writing."""
    seal = seal_of(_key(connection, person_id), name)
    kept = select(signed_name.c.seal).where(signed_name.c.seal == seal)
    if connection.scalar(kept) is None:
        values = {"seal": seal, "person_id": person_id, "printed_name": name}
        connection.execute(insert(signed_name).values(values))
    return seal


def sealed_name(connection: Connection, seal: str) -> str | None:
    """The name behind a seal; None once it is erased."""
    wanted = select(signed_name.c.printed_name).where(signed_name.c.seal == seal)
    found: str | None = connection.scalar(wanted)
    return found


def opened_seal(connection: Connection, seal: str) -> tuple[str, bytes] | None:
    """The name behind a seal and the key that shows it; None once they are erased."""
    wanted = (
        select(signed_name.c.printed_name, name_key.c.key)
        .join(name_key, name_key.c.person_id == signed_name.c.person_id)
        .where(signed_name.c.seal == seal)
    )
    row = connection.execute(wanted).first()
    return None if row is None else (row.printed_name, bytes(row.key))


def names_signed_with(connection: Connection, person_id: str) -> list[str]:
    """Every name a person has signed with."""
    wanted = select(signed_name.c.printed_name).where(signed_name.c.person_id == person_id)
    return list(connection.scalars(wanted))


def forget_signed_names(connection: Connection, person_id: str) -> None:
    """Erase a person's names and the key of their seals."""
    connection.execute(delete(signed_name).where(signed_name.c.person_id == person_id))
    connection.execute(delete(name_key).where(name_key.c.person_id == person_id))


def _key(connection: Connection, person_id: str) -> bytes:
    kept = connection.scalar(select(name_key.c.key).where(name_key.c.person_id == person_id))
    if kept is not None:
        return bytes(kept)
    key = secrets.token_bytes(32)
    connection.execute(insert(name_key).values(person_id=person_id, key=key))
    return key
