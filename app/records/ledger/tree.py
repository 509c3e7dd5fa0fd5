"""The Merkle tree over the records (RFC 6962, 2.1): one hash stands for all of them, in order.

PURE. Records are counted from one, as their seq; ranges are [start, end) counted from zero, as
in the RFC. Kept with record n is the hash of the largest full subtree that ends with it, its
node: 32 bytes a record, from which every root and every proof follows in a few reads.
"""

from collections.abc import Iterable, Iterator
from hashlib import sha256
from typing import Protocol, TypeAlias

Range: TypeAlias = tuple[int, int]

EMPTY = sha256(b"").digest()


class Stored(Protocol):
    """Where the kept hashes are read from, by seq."""

    def leaf(self, seq: int) -> bytes:
        """The leaf hash of a record."""
        ...

    def node(self, seq: int) -> bytes:
        """The hash of the largest full subtree that ends with a record."""
        ...


def leaf_hash(data: bytes) -> bytes:
    """SHA-256 of 0x00 and the data. Source: RFC 6962, 2.1. Example: ``leaf_hash(b"")``."""
    return sha256(b"\x00" + data).digest()


def node_hash(left: bytes, right: bytes) -> bytes:
    """SHA-256 of 0x01 and both hashes (32 bytes each). Source: RFC 6962, 2.1."""
    return sha256(b"\x01" + left + right).digest()


def peaks(size: int) -> Iterator[int]:
    """The records with whose nodes the full subtrees of a tree of this size end, smallest first.

    size: count of records, 0 or more. Example: ``list(peaks(7)) == [7, 6, 4]``.
    """
    while size:
        yield size
        size &= size - 1


def folded(last: bytes, lefts: Iterable[bytes]) -> bytes:
    """The hash over subtrees that stand side by side: last, then those left of it, inmost first.

    With the nodes of ``peaks(n - 1)`` it is the root of n records from the leaf of the nth; with
    those of ``lefts_of(n)`` it is the node kept with record n.
    """
    for left in lefts:
        last = node_hash(left, last)
    return last


def lefts_of(seq: int) -> list[int]:
    """The records whose nodes, folded onto the leaf of record seq, make the node kept with it.

    Example: ``lefts_of(8) == [7, 6, 4]``, ``lefts_of(7) == []``.
    """
    full = (seq & -seq).bit_length() - 1
    return [left for left, _ in zip(peaks(seq - 1), range(full), strict=False)]


def inclusion_ranges(index: int, size: int) -> list[Range]:
    """The ranges whose hashes prove a record, from the leaf's neighbour up to the root's child.

    index: from 0, below size. Raises ValueError. Source: RFC 6962, 2.1.1, PATH.
    """
    if not 0 <= index < size:
        raise ValueError(f"there is no leaf {index} among {size}")
    start, end, found = 0, size, []
    while end - start > 1:
        middle = start + _half(end - start)
        if index < middle:
            found.append((middle, end))
            end = middle
        else:
            found.append((start, middle))
            start = middle
    return found[::-1]


def consistency_ranges(old: int, new: int) -> list[Range]:
    """The ranges whose hashes prove that a tree of size new began with the tree of size old.

    old: from 1 up to new. Raises ValueError. Source: RFC 6962, 2.1.2, SUBPROOF.
    """
    if not 1 <= old <= new:
        raise ValueError(f"a tree of {new} can't begin with one of {old}")
    start, end, found = 0, new, []
    while end != old:
        middle = start + _half(end - start)
        if old <= middle:
            found.append((middle, end))
            end = middle
        else:
            found.append((start, middle))
            start = middle
    if start:
        found.append((start, end))
    return found[::-1]


def range_hash(span: Range, stored: Stored) -> bytes:
    """The Merkle hash of a range that the two functions above named, from what is kept."""
    start, end = span
    width = end - start
    if width == end & -end:
        return stored.node(end)
    if width == 1:
        return stored.leaf(end)
    middle = start + _half(width)
    return node_hash(range_hash((start, middle), stored), range_hash((middle, end), stored))


def _half(width: int) -> int:
    """The largest power of two below the width."""
    return 1 << ((width - 1).bit_length() - 1)


def is_included(leaf: bytes, index: int, size: int, path: Iterable[bytes], root: bytes) -> bool:
    """Whether the path leads from the leaf at index to the root. Source: RFC 9162, 2.1.3.2."""
    if not 0 <= index < size:
        return False
    at, last, found = index, size - 1, leaf
    for step in path:
        if last == 0:
            return False
        if at & 1 or at == last:
            found = node_hash(step, found)
            at, last = _up_to_odd(at, last)
        else:
            found = node_hash(found, step)
        at, last = at >> 1, last >> 1
    return last == 0 and found == root


def is_consistent(
    old: int, new: int, old_root: bytes, new_root: bytes, path: Iterable[bytes]
) -> bool:
    """Whether the path shows that the tree of new began with that of old. RFC 9162, 2.1.4.2."""
    steps = list(path)
    if not 1 <= old <= new or old == new:
        return old == new >= 1 and not steps and old_root == new_root
    if old & (old - 1) == 0:
        steps.insert(0, old_root)
    if not steps:
        return False
    at, last = old - 1, new - 1
    while at & 1:
        at, last = at >> 1, last >> 1
    first = second = steps[0]
    for step in steps[1:]:
        if last == 0:
            return False
        if at & 1 or at == last:
            first, second = node_hash(step, first), node_hash(step, second)
            at, last = _up_to_odd(at, last)
        else:
            second = node_hash(second, step)
        at, last = at >> 1, last >> 1
    return last == 0 and first == old_root and second == new_root


def _up_to_odd(at: int, last: int) -> tuple[int, int]:
    """Past the levels on which the subtree is the last one and has no neighbour."""
    while at and not at & 1:
        at, last = at >> 1, last >> 1
    return at, last
