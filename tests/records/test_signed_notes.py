"""Signed notes against the example of the specification and against openssl."""

import shutil
import stat
import subprocess
from base64 import b64decode
from concurrent.futures import ThreadPoolExecutor
from hashlib import sha256
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.asymmetric.ec import SECP384R1, generate_private_key
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_pem_public_key,
)
from cryptography.hazmat.primitives.serialization import PublicFormat as Public

from app.records.proof.notes import NotANote, SignatureWrong, UnknownSigner, opened, signed
from app.records.proof.signing_key import KEY_FILE, NotAKey, installation_key, read_verifying_key

TEXT = "lowport/0123456789abcdef\n7\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n"
# The example of C2SP tlog-checkpoint; its Ed25519 key is not one of ours.
SPECIFICATION = """\
example.com/behind-the-sofa
20852163
CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=

— example.com/behind-the-sofa Az3grlgtzPICa5OS8npVmf1Myq/5IZniMp+ZJurmRDeOoRDe4URYN7u5/Zhcyv2q1gGzGku9nTo+zyWE+xeMcTOAYQ8=
"""  # noqa: E501


@pytest.fixture
def key(tmp_path: Path):
    return installation_key(tmp_path)


@pytest.fixture
def note(key) -> str:
    return signed(TEXT, "lowport/0123456789abcdef", key)


def test_a_note_is_text_blank_line_and_signature(note: str):
    # C2SP signed-note: em dash, space, key name, space, base64 of key id and signature.
    assert note.startswith(f"{TEXT}\n\u2014 lowport/0123456789abcdef ")
    assert note.count("\n") == 5


def test_it_opens_with_the_key_that_signed_it(note: str, key):
    assert opened(note, [key.verifying]) == TEXT


def test_the_key_is_named_by_the_hash_of_its_public_half(note: str, key):
    # C2SP signed-note, type 0x02: SHA-256 of the DER key in SPKI format, cut to four bytes.
    public = load_pem_public_key(key.verifying.pem.encode())
    spki = public.public_bytes(Encoding.DER, Public.SubjectPublicKeyInfo)
    assert b64decode(note.split()[-1])[:4] == sha256(spki).digest()[:4]


@pytest.mark.skipif(shutil.which("openssl") is None, reason="openssl is not installed")
@pytest.mark.parametrize(("text", "says"), [(TEXT, "Verified OK"), (TEXT + "x", "failure")])
def test_openssl_judges_the_signature_the_same(tmp_path: Path, note: str, key, text, says):
    (tmp_path / "text").write_text(text)
    (tmp_path / "public.pem").write_text(key.verifying.pem)
    (tmp_path / "signature").write_bytes(b64decode(note.split()[-1])[4:])
    command = "openssl dgst -sha256 -verify public.pem -signature signature text"
    answer = subprocess.run(command.split(), cwd=tmp_path, capture_output=True, text=True)
    assert says in answer.stdout + answer.stderr


def test_signatures_of_strangers_are_passed_over(note: str, key, tmp_path: Path):
    (tmp_path / "other").mkdir()
    other = installation_key(tmp_path / "other")
    both = note + signed(TEXT, "witness.example", other).split("\n\n")[1]
    assert opened(both, [key.verifying]) == TEXT
    assert opened(both, [other.verifying]) == TEXT
    with pytest.raises(UnknownSigner):
        opened(SPECIFICATION, [key.verifying, other.verifying])
    with pytest.raises(UnknownSigner):
        opened(note, [])


def test_a_changed_note_is_refused(note: str, key):
    for changed in (note.replace("\n7\n", "\n8\n"), note.replace("\n7\n", "\n7\n\n")):
        with pytest.raises(SignatureWrong, match="lowport/0123456789abcdef"):
            opened(changed, [key.verifying])


def test_one_wrong_signature_spoils_a_note_with_a_right_one(note: str, key):
    line = note.split("\n\n")[1]
    forged = line[:-10] + "AAAA" + line[-6:]
    with pytest.raises(SignatureWrong):
        opened(note + forged, [key.verifying])


@pytest.mark.parametrize(
    "text",
    ["", TEXT, TEXT + "\n", TEXT + "\n- name AAAA\n", TEXT + "\n\u2014 name\n", "x" * 70_000]
    + [f"{TEXT}\n\u2014 name {broken}\n" for broken in ("A", "AA=A", "é", "AAAA AAAA")],
)
def test_what_is_not_a_note_is_refused(text: str, key):
    with pytest.raises(NotANote):
        opened(text, [key.verifying])


# The key


def test_the_key_is_made_once_and_for_its_owner_only(tmp_path: Path):
    first = installation_key(tmp_path)
    assert stat.S_IMODE((tmp_path / KEY_FILE).stat().st_mode) == 0o600
    assert installation_key(tmp_path).verifying.pem == first.verifying.pem
    assert [path.name for path in tmp_path.iterdir()] == [KEY_FILE]


def test_of_several_that_start_at_once_all_use_the_same_key(tmp_path: Path):
    with ThreadPoolExecutor(8) as pool:
        keys = list(pool.map(lambda _: installation_key(tmp_path).verifying.pem, range(8)))
    assert len(set(keys)) == 1


def test_the_public_half_comes_back_from_a_file(tmp_path: Path, key, note: str):
    (tmp_path / "public.pem").write_text(key.verifying.pem)
    assert opened(note, [read_verifying_key(tmp_path / "public.pem")]) == TEXT


def test_another_curve_or_no_key_is_refused(tmp_path: Path):
    other = generate_private_key(SECP384R1())
    pem = other.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    for content in (pem, b"nothing"):
        (tmp_path / KEY_FILE).write_bytes(content)
        with pytest.raises(NotAKey, match=KEY_FILE):
            installation_key(tmp_path)
    path = tmp_path / "public.pem"
    for content in (
        other.public_key().public_bytes(Encoding.PEM, Public.SubjectPublicKeyInfo),
        b"nothing",
    ):
        path.write_bytes(content)
        with pytest.raises(NotAKey, match=r"public\.pem"):
            read_verifying_key(path)
