"""A safety officer sees every phone, what is still on it, and reports one lost."""

import json

import pytest

from app.accounts.devices import device_by_id
from app.database import reading
from tests.trainer.conftest import PASSWORD, text
from tests.trainer.wall_phone import WallPhone
from tests.web.phone import Phone, send, send_all


@pytest.fixture
def phone(firm) -> WallPhone:
    """Tomas's phone, registered for signing."""
    phone = WallPhone(firm.people["tomas"])
    assert phone.enrol(firm.sign_in("tomas"), PASSWORD).status_code == 303
    return phone


def page(client, path: str = "/phones") -> str:
    answer = client.get(path)
    assert answer.status_code == 200
    return text(answer)


def test_a_registered_phone_is_on_the_list(firm, olga, phone):
    shown = page(olga)
    assert "Tomas Invented" in shown
    assert "May sign repairs." in shown
    assert "Phones" in page(olga, "/people")


def test_what_is_missing_between_is_still_on_the_phone(firm, olga):
    phone, ben = Phone(firm.people["ben"]), firm.sign_in("ben")
    steps = firm.curriculum.module("safety-gear").lesson("en").steps
    items = [phone.step(step.id) for step in steps[:4]]
    send_all(ben, items[0])
    send(ben, json.dumps({"items": [items[3]], "issued": {phone.device: 6}}))
    shown = page(olga)
    assert "Still on the phone: no. 2 to 3" in shown
    assert "Still on the phone: no. 5 to 6" in shown


def test_reporting_it_lost_takes_the_officers_password(firm, olga, phone):
    path = f"/phones/{phone.device}"
    assert "Report this phone lost?" in page(olga, path)
    assert olga.post(path, data={"own_password": "not-mine"}).status_code == 422
    with firm.app.app_context(), reading() as connection:
        assert not device_by_id(connection, phone.device).is_revoked
    done = olga.post(path, data={"own_password": PASSWORD})
    assert (done.status_code, done.location) == (303, "/phones")
    assert "Reported lost on" in page(olga)
    with firm.app.app_context(), reading() as connection:
        found = device_by_id(connection, phone.device)
    assert (found.is_revoked, found.revoked_by) == (True, firm.people["olga"])


def test_a_phone_reported_lost_can_end_the_sessions_too(firm, olga, phone):
    tomas = firm.sign_in("tomas")
    olga.post(f"/phones/{phone.device}", data={"own_password": PASSWORD, "is_sure": "y"})
    assert tomas.get("/jobs").status_code == 302


def test_a_phone_reported_lost_is_not_registered_again(firm, olga, phone):
    olga.post(f"/phones/{phone.device}", data={"own_password": PASSWORD})
    tomas = firm.sign_in("tomas")
    again = phone.enrol(tomas, PASSWORD)
    assert again.status_code == 422
    assert "Show it to a safety officer" in text(again)
    assert "Reported lost" in page(tomas, "/devices")


def test_nothing_is_registered_without_password_proof_or_under_anothers_number(firm, phone):
    uma, tomas = firm.sign_in("uma"), firm.sign_in("tomas")
    assert WallPhone(firm.people["tomas"]).enrol(tomas, "not-mine").status_code == 422
    assert WallPhone(firm.people["tomas"]).enrol(tomas, PASSWORD, proof="").status_code == 422
    other = WallPhone(firm.people["tomas"])
    assert other.enrol(tomas, PASSWORD, proof=phone.jws(b"{}")).status_code == 422
    theirs = WallPhone(firm.people["uma"], phone.device)
    assert theirs.enrol(uma, PASSWORD).status_code == 422
    assert page(uma, "/devices").count("May sign") == 0


def test_there_is_no_such_phone(olga):
    assert olga.get("/phones/none").status_code == 404
