"""A sign-off that comes from a phone: judged by its bytes, its key and the server's own scoring."""

import json
from datetime import UTC, datetime

import pytest
import rfc8785

from app.accounts.devices import revoke_device
from app.accounts.printed_names import sealed_name
from app.accounts.sessions import end_all_sessions
from app.database import reading, writing
from app.records.events import Countersign, Practical, TrainerWithdrawn
from app.records.ledger.door import append
from app.records.policy import policy_from
from app.records.standing.definition import standing
from app.records.standing.reasons import NotCounted
from app.workbook.sign_offs import sign_off_of
from tests.trainer.conftest import MEASURED, PASSWORD, Yard, text
from tests.trainer.wall_phone import WallPhone, body_of, wall_data
from tests.web.phone import send, send_all


@pytest.fixture
def phone(yard: Yard) -> WallPhone:
    """Ana's phone, registered."""
    phone = WallPhone(yard.people["ana.trainer"])
    answer = phone.enrol(yard.client, PASSWORD)
    assert answer.status_code == 303, text(answer)
    return phone


@pytest.fixture
def body(yard: Yard) -> dict:
    """A whole repair, done at the wall and not sent yet."""
    return body_of(wall_data(yard.client, yard.started()), MEASURED)


def practicals(yard: Yard) -> list[Practical]:
    return [event for event in yard.events() if isinstance(event, Practical)]


def refused(yard: Yard, item: str) -> dict:
    (outcome,) = send_all(yard.client, item)
    assert outcome["status"] == 422, outcome
    assert practicals(yard) == []
    return outcome["problem"]


def test_a_signed_repair_is_one_record_that_says_how_it_was_signed(yard, phone, body):
    item = phone.sign_off(body)
    (first,) = send_all(yard.client, item)
    assert first["status"] == 201, first
    (event,) = practicals(yard)
    assert (event.id, event.passed, event.flag) == (body["id"], True, "")
    signature, device = event.observation.signature, event.observation.device
    with yard.app.app_context(), reading() as connection:
        name = sealed_name(connection, signature.printed_name)
    assert (signature.way, name) == ("device", "Ana.Trainer Invented")
    assert signature.signed_at == datetime(2026, 3, 2, 14, tzinfo=UTC)
    assert (device.device, device.key, device.sequence) == (phone.device, phone.kid, 1)
    assert device.claimed_at == "2026-03-02T09:00:00-05:00"
    assert device.server_seen_at == "2026-03-02T08:30:00-05:00"
    by_name = {one.name: one for one in event.observation.measured}
    assert (by_name["sample_b"].low, by_name["sample_b"].high) == ("47.5", "52.5")
    assert first["receipt"]["result"] == {"state": "recorded", "record": body["id"], "number": 2}


def test_the_exact_bytes_are_kept_with_the_record(yard, phone, body):
    jws = phone.jws(rfc8785.dumps(body))
    send_all(yard.client, phone.sign_off(body, jws))
    with yard.app.app_context(), reading() as connection:
        kept = sign_off_of(connection, body["id"])
    assert kept.signed_text == jws
    (event,) = practicals(yard)
    assert event.observation.device.sha256 == kept.sha256


def test_the_language_on_the_phone_is_the_one_kept(yard, phone, body):
    send_all(yard.client, phone.sign_off(body | {"language": "es"}))
    (event,) = practicals(yard)
    assert event.observation.signature.language == "es"


def test_sent_again_it_gets_the_first_receipt(yard, phone, body):
    item = phone.sign_off(body)
    first = send_all(yard.client, item)[0]["receipt"]
    assert send_all(yard.client, item)[0]["receipt"] == first
    # The same signature under another number of the phone: still the one record.
    jws = json.loads(item)["payload"]["signed"]
    other = send_all(yard.client, phone.sign_off(body, jws))[0]
    assert other["receipt"]["result"] == first["result"]
    assert len(practicals(yard)) == 1


def test_another_signature_for_a_repair_on_record_is_refused(yard, phone, body):
    send_all(yard.client, phone.sign_off(body))
    (outcome,) = send_all(yard.client, phone.sign_off(body | {"remarks": "Something else."}))
    assert (outcome["status"], outcome["problem"]["code"]) == (422, "SignedAlready")
    assert len(practicals(yard)) == 1


def test_an_ended_session_delays_it_and_the_signature_still_counts(yard, phone, body, cast, clock):
    with yard.app.app_context(), writing() as connection:
        end_all_sessions(connection, yard.people["ana.trainer"], clock())
    item = phone.sign_off(body)
    assert send(yard.client, json.dumps({"items": [item], "issued": {}})).status_code == 401
    assert practicals(yard) == []
    client = cast.sign_in("ana.trainer")
    assert send_all(client, item)[0]["status"] == 201
    assert len(practicals(yard)) == 1


@pytest.mark.parametrize(
    ("header", "typ"),
    [
        ({"alg": "none"}, None),
        ({"alg": "HS256"}, None),
        ({}, "JWT"),
        ({"jwk": {"kty": "EC"}}, None),
        ({"crit": ["b64"], "b64": False}, None),
        ({}, "lowport-enrolment+jws"),
    ],
)
def test_a_header_that_says_more_or_else_is_refused(yard, phone, body, header, typ):
    jws = phone.jws(rfc8785.dumps(body), typ or "lowport-sign-off+jws", **header)
    assert refused(yard, phone.sign_off(body, jws))["code"] == "SignatureWrong"


def test_a_body_changed_after_signing_is_refused(yard, phone, body):
    head, _payload, signature = phone.jws(rfc8785.dumps(body)).split(".")
    other = phone.jws(rfc8785.dumps(body | {"verdict": "not-yet"})).split(".")[1]
    jws = f"{head}.{other}.{signature}"
    assert refused(yard, phone.sign_off(body, jws))["code"] == "SignatureWrong"


def test_a_key_that_nobody_registered_is_refused(yard, phone, body):
    stranger = WallPhone(phone.person, phone.device, 5)
    assert refused(yard, stranger.sign_off(body))["code"] == "KeyUnknown"
    borrowed = stranger.jws(rfc8785.dumps(body), kid=phone.kid)
    assert refused(yard, stranger.sign_off(body, borrowed))["code"] == "SignatureWrong"


@pytest.mark.parametrize(
    "changed",
    [
        lambda raw: raw.replace(b'"version":1', b'"version":1.0'),
        lambda raw: raw.replace(b'"version":1', b'"version": 1'),
        lambda raw: raw.replace(b"Keep", "e\u0301".encode()),
        lambda raw: raw.replace(b'"version":1', b'"version":1,"zebra":1'),
        lambda raw: raw[:-1],
    ],
    ids=["a float", "a blank", "text not in NFC", "a name too many", "cut off"],
)
def test_bytes_that_are_not_canonical_or_not_of_the_form_are_refused(yard, phone, body, changed):
    jws = phone.jws(changed(rfc8785.dumps(body)))
    assert refused(yard, phone.sign_off(body, jws))["code"] == "BodyWrong"


def test_a_phones_wrong_verdict_needs_attention(yard, phone, body):
    # 100 mL of A at 2:1 and 5 %: B from 47.5 mL; 47.4 is out, and the step is critical.
    for one in body["measured"]:
        if one["name"] == "sample_b":
            one.update(typed="47.4 ml", value="47.4")
    problem = refused(yard, phone.sign_off(body))
    assert problem["code"] == "OtherVerdict"
    assert "“Pass”, worked out here it is “Not yet”" in problem["detail"]
    (outcome,) = send_all(yard.client, phone.sign_off(body | {"verdict": "not-yet"}))
    assert outcome["status"] == 201
    assert [event.passed for event in practicals(yard)] == [False]


def test_a_number_read_differently_needs_attention(yard, phone, body):
    body["measured"][0]["value"] = "1"
    assert refused(yard, phone.sign_off(body))["code"] == "OtherReading"


def test_a_limit_that_is_not_the_data_sheets_needs_attention(yard, phone, body):
    for one in body["given"]:
        if one["name"] == "resin_ratio_tolerance":
            one["value"] = "0.5"
    assert refused(yard, phone.sign_off(body))["code"] == "OtherValues"


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"person": "somebody-else"}, "OtherRepair"),
        ({"occurred_on": "2026-03-01"}, "OtherRepair"),
        ({"trainer": "somebody-else"}, "SignedByAnother"),
        ({"items": []}, "OtherChecklist"),
        ({"modules": []}, "OtherChecklist"),
        ({"format": "something"}, "BodyWrong"),
    ],
)
def test_a_body_about_something_else_is_refused(yard, phone, body, change, code):
    assert refused(yard, phone.sign_off(body | change))["code"] == code


def test_a_trainer_not_authorised_that_day_is_refused(yard, phone, body, clock):
    with yard.app.app_context(), writing() as connection:
        gone = TrainerWithdrawn(
            id="gone", occurred_on=clock().date(), zone="America/New_York",
            recorded_at=clock(), recorded_by="officer", reason="test",
            person=yard.people["ana.trainer"], qualification="pump-operator",
        )  # fmt: skip
        append(connection, gone)
    assert refused(yard, phone.sign_off(body))["code"] == "TrainerNotAuthorised"


def test_from_a_phone_reported_lost_it_is_kept_and_counts_once_countersigned(
    yard, phone, body, clock, cast, curriculum
):
    with yard.app.app_context(), writing() as connection:
        revoke_device(connection, phone.device, yard.people["ana.trainer"], clock())
    (outcome,) = send_all(yard.client, phone.sign_off(body))
    assert outcome["status"] == 201
    (event,) = practicals(yard)
    assert (event.passed, event.flag) == (True, "device-revoked")
    assert not_counted(yard, curriculum) == ["device-revoked"]
    yard.authorise("tom.trainer", "pump-operator")
    tom = cast.sign_in("tom.trainer")
    assert "a phone that was reported lost" in text(tom.get("/late-entries"))
    signed = tom.post(f"/late-entries/{event.id}", data={f"{event.id}-password": PASSWORD})
    assert signed.status_code == 303, text(signed)
    assert any(isinstance(one, Countersign) for one in yard.events())
    assert not_counted(yard, curriculum) == []


def not_counted(yard: Yard, curriculum) -> list[str]:
    """Why the worker's records do not count, by code."""
    answer = standing(
        yard.events(), policy_from(curriculum), yard.people["pat.worker"], "pump-operator",
        datetime(2026, 3, 3, tzinfo=UTC).date(), None,
    )  # fmt: skip
    found: tuple[NotCounted, ...] = answer.not_counted
    return [why.code for entry in found for why in entry.whys]


def test_without_a_key_it_waits_for_the_password(yard, body, phone):
    plain = WallPhone(phone.person)
    payload = {"repair": body["id"], "way": "password", "signed": rfc8785.dumps(body).decode()}
    (outcome,) = send_all(yard.client, plain.item("sign-off", payload))
    assert outcome["receipt"]["result"] == {"state": "held", "record": body["id"]}
    assert practicals(yard) == []
    page = yard.page(f"/repairs/{body['id']}/confirm")
    assert "It is no record yet" in page
    assert "Keep the log." not in yard.page("/repairs")
    wrong = yard.post(f"/repairs/{body['id']}/confirm", password="not-mine")
    assert wrong.status_code == 422
    assert practicals(yard) == []
    done = yard.post(f"/repairs/{body['id']}/confirm", password=PASSWORD)
    assert done.status_code == 303, text(done)
    (event,) = practicals(yard)
    assert event.observation.signature.way == "password"
    assert event.observation.device.key == ""
    again = yard.post(f"/repairs/{body['id']}/confirm", password=PASSWORD)
    assert again.status_code == 303
    assert len(practicals(yard)) == 1


def test_the_record_shows_how_it_was_signed_and_the_three_times(yard, phone, body):
    send_all(yard.client, phone.sign_off(body))
    page = text(yard.client.get(f"/repairs/{body['id']}"))
    assert "Signed on a phone, with its key" in page
    assert "2 Mar 2026, 09:00:00 −05:00" in page
    assert "2 Mar 2026, 08:30:00 −05:00" in page
