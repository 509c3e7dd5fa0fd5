"""The installation's key: ECDSA on P-256 with SHA-256, the one signature algorithm there is.

The private key is a file of its own, readable by its owner only, made on first use. Signatures are
DER, so that anybody's openssl can check them; ES256 in a JWS is the same in another wrapping.
"""

import os
from hashlib import sha256
from pathlib import Path
from threading import get_ident

from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.asymmetric.ec import (
    ECDSA,
    SECP256R1,
    EllipticCurvePrivateKey,
    EllipticCurvePublicKey,
    generate_private_key,
)
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    PublicFormat,
    load_pem_private_key,
    load_pem_public_key,
)

from app.trade.errors import Refusal

KEY_FILE = "signing-key.pem"
_ALGORITHM = ECDSA(SHA256())


class NotAKey(Refusal):
    """A file without a P-256 key in PEM."""

    template = "{path} holds no P-256 key in PEM."


class VerifyingKey:
    """A public key, and the four bytes by which a note names it."""

    def __init__(self, public: EllipticCurvePublicKey) -> None:
        self._public = public
        spki = public.public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
        self.id = sha256(spki).digest()[:4]
        pem = public.public_bytes(Encoding.PEM, PublicFormat.SubjectPublicKeyInfo)
        self.pem = pem.decode()

    def has_signed(self, data: bytes, signature: bytes) -> bool:
        """Whether the signature over the data was made with this key's other half."""
        try:
            self._public.verify(signature, data, _ALGORITHM)
        except InvalidSignature:
            return False
        return True


class SigningKey:
    """A private key."""

    def __init__(self, private: EllipticCurvePrivateKey) -> None:
        self._private = private
        self.verifying = VerifyingKey(private.public_key())

    def sign(self, data: bytes) -> bytes:
        """A signature over the data, in DER."""
        return self._private.sign(data, _ALGORITHM)


def installation_key(instance: Path) -> SigningKey:
    """The key in the instance folder, made if there is none. Raises NotAKey."""
    path = instance / KEY_FILE
    if not path.exists():
        _make(path)
    try:
        private = load_pem_private_key(path.read_bytes(), password=None)
    except (ValueError, TypeError):
        raise NotAKey(path=path) from None
    if not isinstance(private, EllipticCurvePrivateKey) or not _is_p256(private.curve.name):
        raise NotAKey(path=path)
    return SigningKey(private)


def read_verifying_key(path: Path) -> VerifyingKey:
    """A public key from a PEM file. Raises NotAKey."""
    try:
        public = load_pem_public_key(path.read_bytes())
    except (ValueError, TypeError):
        raise NotAKey(path=path) from None
    if not isinstance(public, EllipticCurvePublicKey) or not _is_p256(public.curve.name):
        raise NotAKey(path=path)
    return VerifyingKey(public)


def _is_p256(curve: str) -> bool:
    return curve == SECP256R1.name


def _make(path: Path) -> None:
    """Write a new key whole or not at all; of two that start at once, the first one's stays."""
    pem = generate_private_key(SECP256R1()).private_bytes(
        Encoding.PEM, PrivateFormat.PKCS8, NoEncryption()
    )
    unfinished = path.with_name(f"{path.name}.{os.getpid()}-{get_ident()}")
    descriptor = os.open(unfinished, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    with os.fdopen(descriptor, "wb") as file:
        file.write(pem)
    try:
        os.link(unfinished, path)
    except FileExistsError:
        pass
    finally:
        unfinished.unlink()
