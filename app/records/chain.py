"""The hash chain: each record's hash covers its own bytes and the hash before it."""

from hashlib import sha256

GENESIS = bytes(32)


def link(previous: bytes, body: bytes) -> bytes:
    """The hash of a record: SHA-256 of the hash before it (32 bytes) followed by its bytes.

    Raises ValueError if the hash before is not 32 bytes long: the fixed length is what keeps the
    two parts apart. Source: FIPS 180-4. Example: ``link(GENESIS, b"{}")``.
    """
    if len(previous) != 32:
        raise ValueError(f"the hash before must be 32 bytes, not {len(previous)}")
    return sha256(previous + body).digest()
