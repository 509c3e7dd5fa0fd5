"""Phones send what was done without signal: taken in once, refused with a sentence, never lost.

The form of the errors is checked against RFC 9457 (problem details), the choice of status codes
against RFC 9110 sections 15.5.2 (401), 15.5.4 (403), 15.5.10 (409), 15.5.14 (413), 15.5.16 (415).
"""

import json
from uuid import uuid4

import pytest
from sqlalchemy import func, select

from app.accounts.devices import device_by_id, revoke_device
from app.accounts.sessions import end_all_sessions
from app.database import reading, writing
from app.records.events import Training
from app.records.ledger.door import history_of
from app.workbook.outbox_tables import outbox_receipt
from app.workbook.progress import all_steps_done
from tests.web.phone import SAME_ORIGIN, Phone, send, send_all


@pytest.fixture
def done(app, ola_id):
    """Reads which steps Ola has done."""

    def read() -> set[str]:
        with app.app_context(), reading() as connection:
            return set(all_steps_done(connection, ola_id).get(("safety-gear", 1), ()))

    return read


def refused(answer, status: int, code: str) -> dict:
    """The problem of a refusal, once its form is what RFC 9457 section 3 asks for."""
    assert answer.status_code == status, answer.get_data(as_text=True)
    assert answer.content_type == "application/problem+json"
    problem = json.loads(answer.data)
    assert problem["status"] == status
    assert isinstance(problem["type"], str)
    assert isinstance(problem["title"], str)
    assert problem["code"] == code
    return problem


def test_one_thing_is_done_and_gets_a_receipt(ola, phone, steps, done):
    item = phone.step(steps[0])
    answer = send(ola, item)
    assert answer.status_code == 201
    receipt = answer.get_json()
    assert receipt["id"] == json.loads(item)["id"]
    assert receipt["result"]["left"] == steps[1:]
    assert done() == {steps[0]}


def test_the_same_bytes_again_get_the_first_receipt(ola, phone, steps, clock, app):
    item = phone.step(steps[0])
    first = send(ola, item)
    clock.pass_time(hours=3)
    again = send(ola, item)
    assert (first.status_code, again.status_code) == (201, 200)
    assert again.get_json() == first.get_json()
    with app.app_context(), reading() as connection:
        assert connection.scalar(select(func.count()).select_from(outbox_receipt)) == 1


def test_other_bytes_under_the_same_number_are_a_conflict(ola, phone, steps, done):
    item = phone.step(steps[0])
    send(ola, item)
    other = item.replace(steps[0], steps[1])
    refused(send(ola, other), 409, "other-bytes")
    refused(send(ola, item + " "), 409, "other-bytes")
    assert done() == {steps[0]}


def test_a_batch_answers_for_each_thing(ola, phone, steps, done):
    good, bad = phone.step(steps[0]), phone.step("no-such-step")
    outcomes = send_all(ola, good, bad, "not json", good)
    assert [one["status"] for one in outcomes] == [201, 422, 422, 200]
    assert outcomes[1]["problem"]["detail"]
    assert outcomes[3]["receipt"] == outcomes[0]["receipt"]
    assert done() == {steps[0]}


def test_the_last_step_makes_the_training_a_record_of_the_day_it_was_done(
    app, cast, ola_id, phone, steps, clock
):
    clock.pass_time(days=4)
    outcomes = send_all(cast.sign_in("ola.worker"), *(phone.step(step) for step in steps))
    assert outcomes[-1]["receipt"]["result"]["left"] == []
    with app.app_context(), reading() as connection:
        (training,) = [e for e in history_of(connection, ola_id) if isinstance(e, Training)]
    assert training.occurred_on.isoformat() == "2026-03-02"
    assert training.recorded_at == clock()


def test_after_the_session_has_ended_it_says_so_and_takes_nothing(
    app, ola, ola_id, phone, steps, done, clock
):
    with app.app_context(), writing() as connection:
        end_all_sessions(connection, ola_id, clock())
    refused(send(ola, phone.step(steps[0])), 401, "signed-out")
    assert done() == set()


@pytest.mark.parametrize(
    "headers",
    [
        {"Sec-Fetch-Site": "cross-site"},
        {"Sec-Fetch-Site": "same-site"},
        {"Sec-Fetch-Site": "none"},
        {"Origin": "https://elsewhere.example"},
        {"Origin": "null"},
        {},
    ],
)
def test_a_page_of_another_site_may_not_send(ola, phone, steps, done, headers):
    body = phone.step(steps[0])
    answer = ola.post("/outbox", data=body, content_type="application/json", headers=headers)
    refused(answer, 403, "cross-site")
    assert done() == set()


def test_an_older_browser_is_known_by_its_origin(ola, phone, steps):
    headers = {"Origin": "http://localhost"}
    body = phone.step(steps[0])
    answer = ola.post("/outbox", data=body, content_type="application/json", headers=headers)
    assert answer.status_code == 201


@pytest.mark.parametrize(
    "kind", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", None]
)
def test_only_json_is_taken(ola, phone, steps, kind):
    answer = ola.post("/outbox", data=phone.step(steps[0]), content_type=kind, headers=SAME_ORIGIN)
    refused(answer, 415, "not-json")


def test_what_is_too_large_is_refused(ola, phone, steps):
    refused(send(ola, "x" * 3_000_000), 413, "request-entity-too-large")
    refused(send(ola, phone.item("step-done", {"x": "y" * 20_000})), 413, "too-large")
    body = json.dumps({"items": [phone.step(steps[0])] * 51})
    refused(send(ola, body), 413, "too-many")


def test_errors_for_scripts_keep_the_headers_of_the_error(ola):
    answer = ola.delete("/outbox", json={})
    refused(answer, 405, "method-not-allowed")
    assert "POST" in answer.headers["Allow"]


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("version", 2),
        ("id", "1"),
        ("kind", "Step Done"),
        ("person", None),
        ("sequence", 0),
        ("sequence", True),
        ("sequence", 1.5),
        ("claimed_at", "2026-03-02T09:00:00"),
        ("claimed_at", "yesterday"),
        ("server_seen_at", 5),
        ("payload", []),
    ],
)
def test_a_wrong_form_is_refused_with_its_place(ola, phone, steps, field, value):
    item = phone.step(steps[0], **{field: value})
    (outcome,) = send_all(ola, item)
    assert outcome["status"] == 422
    assert field in outcome["problem"]["detail"]


def test_nothing_more_and_nothing_less_than_the_known_fields(ola, phone, steps):
    more = phone.step(steps[0], extra=1)
    less = json.loads(phone.step(steps[0]))
    del less["sequence"]
    assert [o["status"] for o in send_all(ola, more, json.dumps(less))] == [422, 422]


def test_an_unknown_kind_is_refused(ola, phone):
    refused(send(ola, phone.item("repair-wished-for", {})), 422, "unknown-kind")


def test_nobody_sends_for_somebody_else(ola, cast, steps, done):
    ben = Phone(cast.add("ben.worker", "worker"))
    refused(send(ola, ben.step(steps[0])), 403, "other-person")
    assert done() == set()


def test_an_officer_without_the_workers_role_sends_no_steps(cast, steps):
    officer = Phone(cast.add("olga.officer", "safety-officer"))
    refused(send(cast.sign_in("olga.officer"), officer.step(steps[0])), 403, "other-role")


def test_a_phones_id_stays_with_its_person(ola, cast, phone, steps):
    send(ola, phone.step(steps[0]))
    ben = Phone(cast.add("ben.worker", "worker"), device=phone.device)
    refused(send(cast.sign_in("ben.worker"), ben.step(steps[0])), 422, "device-of-another")


def test_a_phone_reported_lost_sends_no_steps(app, ola, ola_id, phone, steps, clock):
    send(ola, phone.step(steps[0]))
    with app.app_context(), writing() as connection:
        revoke_device(connection, phone.device, ola_id, clock())
        assert device_by_id(connection, phone.device).is_revoked
    refused(send(ola, phone.step(steps[1])), 403, "device-revoked")


def test_a_step_of_a_revision_that_is_not_out_is_refused(ola, phone, steps):
    payload = {"module": "safety-gear", "revision": 9, "step": steps[0]}
    refused(send(ola, phone.item("step-done", payload)), 422, "ReadTooNew")


def test_a_handler_that_breaks_keeps_nothing_and_the_others_go_on(
    app, ola, phone, steps, done, monkeypatch
):
    from app.web.outbox.kinds import Kind

    def breaks(connection, arrival):
        raise RuntimeError("secret-of-the-house")

    table = app.extensions["lowport_outbox_kinds"]
    monkeypatch.setitem(table, "breaks", Kind("breaks", breaks))
    broken = phone.item("breaks", {})
    outcomes = send_all(ola, broken, phone.step(steps[0]))
    assert [one["status"] for one in outcomes] == [500, 201]
    assert "secret-of-the-house" not in json.dumps(outcomes)
    monkeypatch.setitem(table, "breaks", Kind("breaks", lambda connection, arrival: {"ok": 1}))
    (outcome,) = send_all(ola, broken)
    assert outcome["status"] == 201


def test_an_id_made_by_nobody_is_no_person(cast, phone):
    stranger = Phone(str(uuid4()))
    cast.add("olga.officer", "safety-officer")
    refused(send(cast.sign_in("olga.officer"), stranger.step("x")), 403, "other-person")
