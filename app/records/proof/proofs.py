"""Proofs from the kept hashes, and the proof of one record as a file (C2SP tlog-proof).

Whoever holds such a file and the installation's public key can check, without the database and
without seeing any other record, that this record stood at this place when the checkpoint was made.
"""

import binascii
from base64 import b64decode, b64encode
from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import Connection, select

from app.records.ledger.chain import GENESIS, link
from app.records.ledger.kept_hashes import KeptHashes
from app.records.ledger.tables import record
from app.records.ledger.tree import consistency_ranges, inclusion_ranges, is_included, range_hash
from app.records.proof.checkpoint import Checkpoint, checkpoint_at, read_checkpoint
from app.records.proof.notes import opened, signed
from app.records.proof.signing_key import SigningKey, VerifyingKey
from app.trade.errors import Refusal

_FIRST_LINE = "c2sp.org/tlog-proof@v1"


class NotAProof(Refusal):
    """Text that is not the proof of a record, or proves nothing."""

    template = "This does not prove a record: {reason}."


@dataclass(frozen=True, slots=True)
class Proven:
    """A record's place, its canonical bytes, and the checkpoint that has it."""

    seq: int
    body: bytes
    checkpoint: Checkpoint


def inclusion_proof(connection: Connection, seq: int, size: int) -> list[bytes]:
    """The path from a record to the root of the first records (RFC 6962, 2.1.1)."""
    hashes = KeptHashes(connection)
    return [range_hash(span, hashes) for span in inclusion_ranges(seq - 1, size)]


def consistency_proof(connection: Connection, old: int, new: int) -> list[bytes]:
    """The path that shows that the first new records begin with the first old (2.1.2)."""
    hashes = KeptHashes(connection)
    return [range_hash(span, hashes) for span in consistency_ranges(old, new)]


def proof_of(connection: Connection, seq: int, key: SigningKey) -> str:
    """The proof of a record in the records as they are now. KeyError if there is no such record.

    What the leaf is made of, the hash before and the bytes, stands in the "extra" line.
    """
    hashes = KeptHashes(connection)
    body = connection.scalar(select(record.c.body).where(record.c.seq == seq))
    if body is None:
        raise KeyError(seq)
    leaf = (hashes.leaf(seq - 1) if seq > 1 else GENESIS) + body
    now = checkpoint_at(connection, hashes.size())
    path = inclusion_proof(connection, seq, now.size)
    lines = [f"extra {_base64(leaf)}", f"index {seq - 1}", *map(_base64, path)]
    note = signed(now.text, now.origin, key)
    return "\n".join([_FIRST_LINE, *lines, "", note])


def read_proof(text: str, keys: Iterable[VerifyingKey]) -> Proven:
    """What a proof proves. Raises NotAProof, and what an unsigned note raises."""
    head, blank, note = text.partition("\n\n")
    first, *lines = head.split("\n")
    if first != _FIRST_LINE or not blank or len(lines) < 2:
        raise NotAProof(reason=f"its first line is not {_FIRST_LINE}")
    checkpoint = read_checkpoint(opened(note, keys))
    leaf, index = _bytes(_after("extra ", lines[0])), _after("index ", lines[1])
    if not index.isascii() or not index.isdigit() or len(index) > 16:
        raise NotAProof(reason=f"{index!r} is not a place")
    path = [_bytes(line) for line in lines[2:]]
    hash_before, body = leaf[:32], leaf[32:]
    if len(hash_before) != 32 or not is_included(
        link(hash_before, body), int(index), checkpoint.size, path, checkpoint.root
    ):
        raise NotAProof(reason="its path does not lead from the record to the signed root")
    return Proven(int(index) + 1, body, checkpoint)


def _base64(data: bytes) -> str:
    return b64encode(data).decode()


def _after(word: str, line: str) -> str:
    if not line.startswith(word):
        raise NotAProof(reason=f"{line!r:.60} does not begin with {word.strip()!r}")
    return line.removeprefix(word)


def _bytes(text: str) -> bytes:
    try:
        return b64decode(text, validate=True)
    except (binascii.Error, ValueError):
        raise NotAProof(reason=f"{text!r:.60} is not base64") from None
