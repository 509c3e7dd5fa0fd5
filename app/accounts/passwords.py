"""Passwords: argon2id with parameters of our own choosing, and what is refused as too weak."""

from argon2 import PasswordHasher
from argon2.exceptions import Argon2Error, InvalidHashError

from app.trade.errors import Refusal

LEAST_LENGTH = 8
MOST_LENGTH = 200

# OWASP's minimum for argon2id: 19 MiB, two passes, one lane (about 20 ms).
_hasher = PasswordHasher(time_cost=2, memory_cost=19 * 1024, parallelism=1)

# From memory: what people choose first when nobody stops them.
_COMMON = frozenset(
    [
        "password",
        "password1",
        "password12",
        "password123",
        "passw0rd",
        "qwertyui",
        "qwertyuiop",
        "qwerty123",
        "12345678",
        "123456789",
        "1234567890",
        "11111111",
        "00000000",
        "87654321",
        "abcdefgh",
        "abcd1234",
        "abc12345",
        "iloveyou",
        "sunshine",
        "princess",
        "football",
        "baseball",
        "superman",
        "trustno1",
        "welcome1",
        "welcome123",
        "letmein1",
        "letmein123",
        "admin123",
        "administrator",
        "changeme",
        "changeme1",
        "concrete",
        "concrete1",
        "contraseña",
        "contrasena",
        "hola1234",
        "monkey123",
        "dragon123",
        "michael1",
        "jennifer",
        "computer",
        "whatever",
        "starwars",
        "master123",
        "summer2024",
        "summer2025",
        "summer2026",
        "winter2024",
        "winter2025",
        "winter2026",
        "lowport1",
        "lowport123",
    ]
)


class WeakPassword(Refusal):
    """The password is too short, too long or among the first that anybody would try."""


def hash_password(password: str) -> str:
    """Return the argon2id hash of a password that has passed ``refuse_weak``."""
    return _hasher.hash(password)


def refuse_weak(password: str, sign_in_name: str) -> None:
    """Raise WeakPassword with the sentence the page prints."""
    if len(password) < LEAST_LENGTH:
        raise WeakPassword(reason=f"Use at least {LEAST_LENGTH} characters; 15 or more is better.")
    if len(password) > MOST_LENGTH:
        raise WeakPassword(reason=f"Use at most {MOST_LENGTH} characters.")
    lowered = password.lower()
    if lowered in _COMMON or len(set(lowered)) < 4:
        raise WeakPassword(
            reason="That password is one of the first anybody would try. Choose another."
        )
    if sign_in_name.lower() in lowered:
        raise WeakPassword(reason="The password must not contain the sign-in name.")


def is_right(password: str, password_hash: str) -> bool:
    """Say whether the password belongs to the hash."""
    try:
        return _hasher.verify(password_hash, password)
    except (Argon2Error, InvalidHashError):
        return False


def is_outdated(password_hash: str) -> bool:
    """Say whether the hash was made with other parameters and should be made anew."""
    return _hasher.check_needs_rehash(password_hash)
