"""Adding people, their roles, and the last safety officer."""

import pytest
from flask import Flask

from app.accounts.passwords import WeakPassword, hash_password, is_outdated, is_right
from app.accounts.people import (
    BadSignInName,
    LastOfficer,
    NoRole,
    SignInNameTaken,
    add_person,
    person_by_id,
    set_active,
    set_roles,
)
from app.database import reading, writing

GOOD = {
    "sign_in_name": "ola.worker",
    "printed_name": "Ola Invented",
    "password": "wet-phone-in-basement",
    "roles": ["worker"],
}


def add(app: Flask, **changes) -> str:
    with app.app_context(), writing() as connection:
        return add_person(connection, **{**GOOD, **changes})


def test_a_person_is_found_with_their_roles(app: Flask):
    person_id = add(app, sign_in_name=" Ola.Worker ", roles=["worker", "trainer"])
    with app.app_context(), reading() as connection:
        person = person_by_id(connection, person_id)
    assert person.sign_in_name == "ola.worker"
    assert person.roles == {"worker", "trainer"}


@pytest.mark.parametrize(
    ("changes", "refusal"),
    [
        ({"sign_in_name": "a b"}, BadSignInName),
        ({"sign_in_name": "x"}, BadSignInName),
        ({"roles": []}, NoRole),
        ({"roles": ["boss"]}, NoRole),
        ({"password": "short"}, WeakPassword),
        ({"password": "Password123"}, WeakPassword),
        ({"password": "aaaaaaaaaaaa"}, WeakPassword),
        ({"password": "i-am-ola.worker"}, WeakPassword),
    ],
)
def test_a_wrong_entry_is_refused_and_nobody_is_added(app: Flask, changes, refusal):
    with pytest.raises(refusal):
        add(app, **changes)
    assert add(app)  # nothing half written stands in the way


def test_a_sign_in_name_is_given_once(app: Flask):
    add(app)
    with pytest.raises(SignInNameTaken):
        add(app, sign_in_name="OLA.WORKER")


def test_the_last_officer_stays(app: Flask):
    officer = add(app, roles=["safety-officer"])
    with app.app_context():
        with pytest.raises(LastOfficer), writing() as connection:
            set_roles(connection, officer, ["worker"])
        with pytest.raises(LastOfficer), writing() as connection:
            set_active(connection, officer, False)
    add(app, sign_in_name="second.officer", roles=["safety-officer"])
    with app.app_context(), writing() as connection:
        set_active(connection, officer, False)


def test_passwords_are_argon2id_with_our_parameters():
    hashed = hash_password("wet-phone-in-basement")
    # OWASP Password Storage Cheat Sheet: argon2id, 19 MiB, 2 passes, 1 lane at least.
    assert hashed.startswith("$argon2id$v=19$m=19456,t=2,p=1$")
    assert is_right("wet-phone-in-basement", hashed)
    assert not is_right("wet-phone-in-basemenT", hashed)
    assert not is_right("anything", "not a hash")
    assert not is_outdated(hashed)
