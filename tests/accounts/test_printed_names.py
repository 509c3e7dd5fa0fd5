"""Seals of printed names. Outside check: the HMAC-SHA256 vectors of RFC 4231."""

import pytest

from app.accounts.printed_names import (
    forget_signed_names,
    is_seal,
    names_signed_with,
    seal_name,
    seal_of,
    sealed_name,
)
from app.database import reading, writing


@pytest.mark.parametrize(
    ("key", "name", "seal"),
    [
        # RFC 4231, 4.2 and 4.3
        (
            b"\x0b" * 20,
            "Hi There",
            "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7",
        ),
        (
            b"Jefe",
            "what do ya want for nothing?",
            "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843",
        ),
    ],
)
def test_a_seal_is_hmac_sha256(key, name, seal):
    assert seal_of(key, name) == seal


def test_the_same_name_has_the_same_seal_and_each_person_their_own(app, cast):
    ana, other = cast.add("ana"), cast.add("other")
    with app.app_context(), writing() as connection:
        first = seal_name(connection, ana, "Ana Invented")
        assert seal_name(connection, ana, "Ana Invented") == first
        assert seal_name(connection, other, "Ana Invented") != first
        assert seal_name(connection, ana, "Ana Renamed") != first
        assert is_seal(first)
        assert not is_seal("Ana Invented")
        assert sealed_name(connection, first) == "Ana Invented"
        assert sorted(names_signed_with(connection, ana)) == ["Ana Invented", "Ana Renamed"]


def test_forgotten_names_come_back_from_nowhere(app, cast):
    ana = cast.add("ana")
    with app.app_context():
        with writing() as connection:
            first = seal_name(connection, ana, "Ana Invented")
        with writing() as connection:
            forget_signed_names(connection, ana)
        with reading() as connection:
            assert sealed_name(connection, first) is None
        with writing() as connection:
            assert seal_name(connection, ana, "Ana Invented") != first  # the key was another
