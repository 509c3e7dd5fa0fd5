"""The Merkle tree against published roots, and against pymerkle at random sizes."""

from hashlib import sha256

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pymerkle import InmemoryTree

from app.records.ledger.tree import (
    EMPTY,
    consistency_ranges,
    folded,
    inclusion_ranges,
    is_consistent,
    is_included,
    leaf_hash,
    lefts_of,
    node_hash,
    peaks,
    range_hash,
)

# The test vectors of the reference implementation of Certificate Transparency (RFC 6962):
# eight leaves, and the root after each.
VECTORS = [
    ("", "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d"),
    ("00", "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125"),
    ("10", "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77"),
    ("2021", "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7"),
    ("3031", "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4"),
    ("40414243", "76e67dadbcdf1e10e1b74ddc608abd2f98dfb16fbce75277b5232a127f2087ef"),
    ("5051525354555657", "ddb89be403809e325750d3d263cd78929c2942b7942a34b77e122c9594a74c8c"),
    (
        "606162636465666768696a6b6c6d6e6f",
        "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328",
    ),
]
# From the same vectors: from size, to size, the proof.
CONSISTENCY = [
    (
        1,
        8,
        [
            "96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7",
            "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
            "6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4",
        ],
    ),
    (
        6,
        8,
        [
            "0ebc5d3437fbe2db158b9f126a1d118e308181031d0a949f8dededebc558ef6a",
            "ca854ea128ed050b41b35ffc1b87b8eb2bde461e9e3b5596ece6b9d5975a0ae0",
            "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
        ],
    ),
    (
        2,
        5,
        [
            "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
            "bc1a0643b12e4d2d7c77918f44e0f4f79a838b6cf9ec5b5c283e1f4d88599e6b",
        ],
    ),
]
SIZES = st.integers(1, 300)


class Kept:
    """A log as the ledger keeps it: leaf and node of each entry."""

    def __init__(self, data: list[bytes]) -> None:
        self.data = data
        self.leaves = [leaf_hash(entry) for entry in data]
        self.nodes: list[bytes] = []
        for seq, leaf in enumerate(self.leaves, start=1):
            self.nodes.append(folded(leaf, map(self.node, lefts_of(seq))))

    def leaf(self, seq: int) -> bytes:
        return self.leaves[seq - 1]

    def node(self, seq: int) -> bytes:
        return self.nodes[seq - 1]

    def root(self, size: int) -> bytes:
        return folded(self.leaf(size), map(self.node, peaks(size - 1)))

    def path(self, ranges) -> list[bytes]:
        return [range_hash(span, self) for span in ranges]


LOG = Kept([f"entry {n}".encode() for n in range(300)])
PUBLISHED = Kept([bytes.fromhex(data) for data, _ in VECTORS])


def oracle() -> InmemoryTree:
    tree = InmemoryTree(algorithm="sha256")
    for data in LOG.data:
        tree.append_entry(data)
    return tree


ORACLE = oracle()


def test_the_published_roots():
    for size, (_, root) in enumerate(VECTORS, start=1):
        assert PUBLISHED.root(size).hex() == root


@pytest.mark.parametrize(("old", "new", "proof"), CONSISTENCY)
def test_the_published_consistency_proofs(old: int, new: int, proof: list[str]):
    path = PUBLISHED.path(consistency_ranges(old, new))
    assert [step.hex() for step in path] == proof


def test_an_empty_tree_is_the_hash_of_nothing():
    # RFC 6962, 2.1: MTH({}) = SHA-256().
    assert sha256().digest() == EMPTY


@given(SIZES)
def test_roots_are_those_of_the_reference_library(size: int):
    assert LOG.root(size) == ORACLE.get_root(size)


@given(SIZES)
def test_what_is_kept_with_a_record_is_the_full_subtree_it_ends(seq: int):
    width = seq & -seq
    alone = InmemoryTree(algorithm="sha256")
    for data in LOG.data[seq - width : seq]:
        alone.append_entry(data)
    assert LOG.node(seq) == alone.get_root()


@given(SIZES, st.data())
def test_inclusion_paths_are_those_of_the_reference_library(size: int, draw: st.DataObject):
    index = draw.draw(st.integers(0, size - 1))
    path = LOG.path(inclusion_ranges(index, size))
    # The library counts from one, and puts the leaf itself in front of the path.
    assert [LOG.leaves[index], *path] == ORACLE.prove_inclusion(index + 1, size).path
    assert is_included(LOG.leaves[index], index, size, path, LOG.root(size))


@given(SIZES, st.data())
def test_consistency_paths_lead_to_the_roots_of_the_reference_library(
    new: int, draw: st.DataObject
):
    old = draw.draw(st.integers(1, new))
    path = LOG.path(consistency_ranges(old, new))
    roots = ORACLE.get_root(old), ORACLE.get_root(new)
    assert is_consistent(old, new, *roots, path)


@given(SIZES, st.data())
def test_no_path_proves_what_is_not_so(size: int, draw: st.DataObject):
    index = draw.draw(st.integers(0, size - 1))
    leaf, root = LOG.leaves[index], LOG.root(size)
    path = LOG.path(inclusion_ranges(index, size))
    assert not is_included(leaf_hash(b"other"), index, size, path, root)
    assert not is_included(leaf, index, size, [*path, leaf], root)
    assert not is_included(leaf, size, size, path, root)
    if path:
        other = draw.draw(st.sampled_from([n for n in range(size) if n != index]))
        assert not is_included(leaf, other, size, path, root)
        assert not is_included(leaf, index, size, path[:-1], root)


@given(st.integers(2, 300), st.data())
def test_no_path_joins_histories_that_differ(new: int, draw: st.DataObject):
    old = draw.draw(st.integers(1, new - 1))
    path = LOG.path(consistency_ranges(old, new))
    rewritten = node_hash(LOG.root(old), LOG.root(old))
    assert not is_consistent(old, new, rewritten, LOG.root(new), path)
    assert not is_consistent(old, new, LOG.root(old), rewritten, path)
    assert not is_consistent(old, new, LOG.root(old), LOG.root(new), path[:-1])
    assert not is_consistent(old, new, LOG.root(old), LOG.root(new), [*path, rewritten])
    assert not is_consistent(new, old, LOG.root(new), LOG.root(old), path)


@pytest.mark.parametrize(("index", "size"), [(0, 0), (5, 5), (-1, 3)])
def test_there_is_no_path_to_a_leaf_that_is_not_there(index: int, size: int):
    with pytest.raises(ValueError, match=str(size)):
        inclusion_ranges(index, size)


@pytest.mark.parametrize(("old", "new"), [(0, 3), (4, 3)])
def test_a_tree_begins_only_with_a_smaller_one(old: int, new: int):
    with pytest.raises(ValueError, match=str(old)):
        consistency_ranges(old, new)


def test_equal_trees_need_no_path():
    assert is_consistent(5, 5, LOG.root(5), LOG.root(5), [])
    assert not is_consistent(5, 5, LOG.root(5), LOG.root(4), [])
    assert not is_consistent(0, 5, EMPTY, LOG.root(5), [])
