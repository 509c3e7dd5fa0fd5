"""The hashes kept with the records, read back: the newest size, the root at any size, one leaf."""

from sqlalchemy import Connection

from app.driver import fetched
from app.records.ledger.tree import EMPTY, folded, peaks


class KeptHashes:
    """The leaves and nodes kept with the records (app.records.ledger.tree.Stored)."""

    def __init__(self, connection: Connection) -> None:
        self.connection = connection

    def leaf(self, seq: int) -> bytes:
        """The hash of a record; KeyError if it is not there."""
        found = fetched(self.connection, "SELECT hash FROM record WHERE seq = ?", (seq,))
        if not found:
            raise KeyError(seq)
        return bytes(found[0][0])

    def node(self, seq: int) -> bytes:
        """The node kept with a record; KeyError if it is not there."""
        return self.nodes([seq])[0]

    def nodes(self, seqs: list[int]) -> list[bytes]:
        """Several nodes in one query, in the order asked; KeyError if one is not there."""
        if not seqs:
            return []
        wanted = f"SELECT seq, node FROM record WHERE seq IN ({', '.join('?' * len(seqs))})"
        kept = {seq: bytes(node) for seq, node in fetched(self.connection, wanted, seqs)}
        return [kept[seq] for seq in seqs]

    def size(self) -> int:
        """How many records there are."""
        [(last,)] = fetched(self.connection, "SELECT max(seq) FROM record")
        return last or 0

    def root(self, size: int) -> bytes:
        """The root of the first records; KeyError if there are fewer.

        Only the last leaf and what stands left of it are read. The leaf's own hash covers every
        record before it, so where the leaf has been checked, the root vouches for all of them.
        """
        if size == 0:
            return EMPTY
        return folded(self.leaf(size), self.nodes(list(peaks(size - 1))))
