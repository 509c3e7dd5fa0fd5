"""Checkpoints (C2SP tlog-checkpoint): which records, how many, and the one hash over them all.

A chain in one database proves nothing against the owner of that database. A checkpoint kept by
somebody else does: whoever rewrites a record later can't make the old root come out again.
"""

import binascii
import re
from base64 import b64decode, b64encode
from dataclasses import dataclass

from sqlalchemy import Connection

from app.records.ledger.kept_hashes import KeptHashes
from app.trade.errors import Refusal

_SIZE = re.compile(r"[1-9][0-9]{0,15}")


class NotACheckpoint(Refusal):
    """Text that is not a checkpoint of records."""

    template = "This is not a checkpoint: {reason}."


@dataclass(frozen=True, slots=True)
class Checkpoint:
    """origin: the name of these records; size: how many, from 1; root: the tree's hash."""

    origin: str
    size: int
    root: bytes

    @property
    def text(self) -> str:
        """The three lines of a note."""
        return f"{self.origin}\n{self.size}\n{b64encode(self.root).decode()}\n"

    @property
    def line(self) -> str:
        """The same on one line, for the foot of a printed sheet."""
        return " ".join(self.text.split())


def newest(connection: Connection) -> Checkpoint | None:
    """The checkpoint of all records there are now, from the kept hashes; None without any."""
    size = KeptHashes(connection).size()
    return checkpoint_at(connection, size) if size else None


def newest_line(connection: Connection) -> str:
    """The newest checkpoint on one line; empty while there are no records.

    For whatever leaves the house, printed or as a file: `records verify --against` reads it back.
    """
    found = newest(connection)
    return found.line if found else ""


def checkpoint_at(connection: Connection, size: int) -> Checkpoint:
    """The checkpoint of the first records; KeyError if there are fewer."""
    hashes = KeptHashes(connection)
    # The records' name is their first one's hash: it stays when they move to another database.
    origin = f"lowport/{hashes.leaf(1).hex()[:16]}"
    return Checkpoint(origin, size, hashes.root(size))


def read_checkpoint(text: str) -> Checkpoint:
    """A checkpoint from its three lines, or from the one line of a printed sheet.

    Raises NotACheckpoint. Lines after the third are passed over, as C2SP says.
    """
    words = text.split()
    if len(words) < 3:
        raise NotACheckpoint(reason="it has no name, size and root")
    origin, size, root = words[:3]
    if not _SIZE.fullmatch(size):
        raise NotACheckpoint(reason=f"{size!r} is not a number of records")
    try:
        found = b64decode(root, validate=True)
    except (binascii.Error, ValueError):
        raise NotACheckpoint(reason=f"{root!r} is not a root") from None
    if len(found) != 32:
        raise NotACheckpoint(reason=f"{root!r} is not a root")
    return Checkpoint(origin, int(size), found)
