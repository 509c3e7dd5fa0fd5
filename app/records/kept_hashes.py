"""The hashes kept with the records, read back: the newest size, the root at any size, one leaf."""

from sqlalchemy import Connection, func, select

from app.records.tables import record
from app.records.tree import EMPTY, folded, peaks


class KeptHashes:
    """The leaves and nodes kept with the records (app.records.tree.Stored)."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection

    def leaf(self, seq: int) -> bytes:
        """The hash of a record; KeyError if it is not there."""
        found = self.connection.scalar(select(record.c.hash).where(record.c.seq == seq))
        if found is None:
            raise KeyError(seq)
        return bytes(found)

    def node(self, seq: int) -> bytes:
        """The node kept with a record; KeyError if it is not there."""
        return self.nodes([seq])[0]

    def nodes(self, seqs: list[int]) -> list[bytes]:
        """Several nodes in one query, in the order asked; KeyError if one is not there."""
        wanted = select(record.c.seq, record.c.node).where(record.c.seq.in_(seqs))
        kept = {row.seq: bytes(row.node) for row in self.connection.execute(wanted)}
        return [kept[seq] for seq in seqs]

    def size(self) -> int:
        """How many records there are."""
        return self.connection.scalar(select(func.max(record.c.seq))) or 0

    def root(self, size: int) -> bytes:
        """The root of the first records; KeyError if there are fewer.

        Only the last leaf and what stands left of it are read. The leaf's own hash covers every
        record before it, so where the leaf has been checked, the root vouches for all of them.
        """
        if size == 0:
            return EMPTY
        return folded(self.leaf(size), self.nodes(list(peaks(size - 1))))
