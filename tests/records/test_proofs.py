"""One record proven to somebody without the database, and one history to follow from another."""

from base64 import b64decode
from pathlib import Path

import pytest
from pymerkle import InmemoryTree
from records_cast import base, quiz
from sqlalchemy import Connection, select

from app.records.ledger.canonical import canonical
from app.records.ledger.door import append
from app.records.ledger.encoding import data_of
from app.records.ledger.kept_hashes import KeptHashes
from app.records.ledger.tables import record
from app.records.ledger.tree import is_consistent
from app.records.proof.checkpoint import newest
from app.records.proof.notes import UnknownSigner
from app.records.proof.proofs import (
    NotAProof,
    consistency_proof,
    inclusion_proof,
    proof_of,
    read_proof,
)
from app.records.proof.signing_key import SigningKey, installation_key

EVENTS = [*base(), *(quiz(f"q{number}", "2024-01-12") for number in range(10, 24))]


@pytest.fixture
def kept(connection: Connection) -> Connection:
    for event in EVENTS:
        append(connection, event)
    return connection


@pytest.fixture
def key(tmp_path: Path) -> SigningKey:
    return installation_key(tmp_path)


def oracle(connection: Connection) -> InmemoryTree:
    tree, previous = InmemoryTree(algorithm="sha256"), bytes(32)
    rows = connection.execute(select(record.c.body, record.c.hash).order_by(record.c.seq))
    for body, leaf in rows.all():
        tree.append_entry(previous + body)
        previous = leaf
    return tree


def test_inclusion_proofs_are_those_of_the_reference_library(kept: Connection):
    tree = oracle(kept)
    for size in range(1, len(EVENTS) + 1):
        for seq in range(1, size + 1):
            # The library puts the leaf itself in front of the path.
            assert inclusion_proof(kept, seq, size) == tree.prove_inclusion(seq, size).path[1:]


def test_consistency_proofs_lead_from_root_to_root(kept: Connection):
    tree = oracle(kept)
    for new in range(1, len(EVENTS) + 1):
        for old in range(1, new + 1):
            path = consistency_proof(kept, old, new)
            assert is_consistent(old, new, tree.get_root(old), tree.get_root(new), path)


def test_a_proof_file_gives_the_record_back(kept: Connection, key: SigningKey):
    for seq, event in enumerate(EVENTS, start=1):
        found = read_proof(proof_of(kept, seq, key), [key.verifying])
        assert (found.seq, found.body) == (seq, canonical(data_of(event)))
        assert found.checkpoint == newest(kept)


def test_a_proof_file_has_the_form_of_the_specification(kept: Connection, key: SigningKey):
    # C2SP tlog-proof: its first line, extra, index from zero, one hash a line, the signed note.
    lines = proof_of(kept, 5, key).split("\n")
    assert lines[0] == "c2sp.org/tlog-proof@v1"
    assert lines[1].startswith("extra ")
    assert lines[2] == "index 4"
    path = lines[3 : lines.index("")]
    assert [len(b64decode(step, validate=True)) for step in path] == [32] * len(path)
    assert lines[len(path) + 4].startswith("lowport/")


def test_there_is_no_proof_of_what_is_not_there(kept: Connection, key: SigningKey):
    with pytest.raises(KeyError):
        proof_of(kept, len(EVENTS) + 1, key)
    with pytest.raises(KeyError):
        KeptHashes(kept).node(len(EVENTS) + 1)


def test_a_proof_by_a_stranger_proves_nothing(kept: Connection, key: SigningKey, tmp_path: Path):
    (tmp_path / "other").mkdir()
    other = installation_key(tmp_path / "other")
    with pytest.raises(UnknownSigner):
        read_proof(proof_of(kept, 3, other), [key.verifying])


@pytest.mark.parametrize(
    ("line", "becomes"),
    [
        (0, "c2sp.org/tlog-proof@v9"),
        (1, "extra "),
        (1, "extra %%"),
        (2, "index 5"),
        (2, "index x"),
        (2, "place 4"),
        (2, "index 99999999999999999999"),
        (3, "AAAA"),
    ],
)
def test_a_changed_proof_proves_nothing(kept: Connection, key: SigningKey, line: int, becomes: str):
    lines = proof_of(kept, 5, key).split("\n")
    lines[line] = becomes
    with pytest.raises(NotAProof):
        read_proof("\n".join(lines), [key.verifying])


@pytest.mark.parametrize("text", ["", "\n\n", "c2sp.org/tlog-proof@v1\n\n"])
def test_what_is_no_proof_is_refused(key: SigningKey, text: str):
    with pytest.raises(NotAProof):
        read_proof(text, [key.verifying])
