"""The hash chain: each record's hash covers its own bytes and the hash before it.

The hash is also the record's leaf in the Merkle tree (tree.py): RFC 6962's leaf hash over the
hash before, 32 bytes, followed by the record's canonical bytes. One hash then serves for both,
and a leaf that is found in a signed root vouches for every record before it.
"""

from app.records.ledger.tree import leaf_hash

GENESIS = bytes(32)


def link(previous: bytes, body: bytes) -> bytes:
    """The hash of a record: the leaf hash of the hash before it (32 bytes) and its bytes.

    Raises ValueError if the hash before is not 32 bytes long: the fixed length is what keeps the
    two parts apart. Source: RFC 6962, 2.1; FIPS 180-4. Example: ``link(GENESIS, b"{}")``.
    """
    if len(previous) != 32:
        raise ValueError(f"the hash before must be 32 bytes, not {len(previous)}")
    return leaf_hash(previous + body)
