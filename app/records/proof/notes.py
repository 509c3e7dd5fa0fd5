"""Signed notes (C2SP signed-note): text, a blank line, and signature lines anybody can check.

A signature line is "— name base64(key id, signature)". Ours are of the type 0x02: ECDSA on P-256
over the SHA-256 of the text, in DER; the key id is the start of the SHA-256 of the public key.
"""

import binascii
from base64 import b64decode, b64encode
from collections.abc import Iterable, Iterator

from app.records.proof.signing_key import SigningKey, VerifyingKey
from app.trade.errors import Refusal

_DASH = "\u2014 "
MOST_BYTES = 64 * 1024


class NotANote(Refusal):
    """Text that has not the form of a signed note."""

    template = "This is not a signed note: {reason}."


class UnknownSigner(Refusal):
    """No signature on a note is by a key that is trusted."""

    template = "Nobody whose key is known here signed this note."


class SignatureWrong(Refusal):
    """A signature names a trusted key, and that key did not make it."""

    template = "The signature of {name} on this note is wrong: note or signature were changed."


def signed(text: str, name: str, key: SigningKey) -> str:
    """The note: text (ending in a newline) and one signature by the key under the name."""
    line = b64encode(key.verifying.id + key.sign(text.encode())).decode()
    return f"{text}\n{_DASH}{name} {line}\n"


def opened(note: str, keys: Iterable[VerifyingKey]) -> str:
    """The text of a note that at least one of the keys signed.

    Signatures by unknown keys are passed over. Raises NotANote, UnknownSigner, SignatureWrong.
    Source: C2SP signed-note v1.
    """
    if len(note.encode()) > MOST_BYTES:
        raise NotANote(reason="it is too long")
    text, blank, signatures = note.rpartition("\n\n")
    if not blank or not signatures.endswith("\n"):
        raise NotANote(reason="there are no signatures under it")
    text += "\n"
    known = {key.id: key for key in keys}
    is_signed = False
    for name, key_id, signature in _signatures(signatures):
        if key_id in known:
            if not known[key_id].has_signed(text.encode(), signature):
                raise SignatureWrong(name=name)
            is_signed = True
    if not is_signed:
        raise UnknownSigner
    return text


def _signatures(lines: str) -> Iterator[tuple[str, bytes, bytes]]:
    for line in lines[:-1].split("\n"):
        parts = line.removeprefix(_DASH).split(" ")
        if not line.startswith(_DASH) or len(parts) != 2 or not parts[0]:
            raise NotANote(reason=f"{line!r:.80} is not a signature")
        try:
            both = b64decode(parts[1], validate=True)
        except (binascii.Error, ValueError):
            raise NotANote(reason=f"{line!r:.80} is not a signature") from None
        yield parts[0], both[:4], both[4:]
