"""A file saved on a phone is brought in at the office; only a trainer or an officer may."""

import io
import json

import pytest
from flask.testing import FlaskClient

from app.database import reading
from app.records.events import Training
from app.records.ledger.door import history_of
from app.workbook.receipts import receipts_from


@pytest.fixture
def olga(cast, ola_id) -> FlaskClient:
    cast.add("olga.officer", "safety-officer")
    return cast.sign_in("olga.officer")


def bring(client: FlaskClient, data: bytes | dict):
    raw = data if isinstance(data, bytes) else json.dumps(data).encode()
    return client.post("/outbox/import", data={"file": (io.BytesIO(raw), "not-sent.json")})


def saved(*items: str, **other) -> dict:
    return {"format": "lowport-outbox", "version": 1, "items": list(items), **other}


def test_what_is_in_the_file_is_done_and_says_who_brought_it(app, olga, ola_id, phone, steps):
    items = [phone.step(step) for step in steps]
    page = bring(olga, saved(*items)).get_data(as_text=True)
    assert page.count("Taken in.") == len(steps)
    assert "Ola.Worker Invented" in page
    with app.app_context(), reading() as connection:
        receipts = receipts_from(connection, phone.device)
        (training,) = [e for e in history_of(connection, ola_id) if isinstance(e, Training)]
    assert training.person == ola_id
    assert training.recorded_by == receipts[0].carried_by != ola_id
    again = bring(olga, saved(*items)).get_data(as_text=True)
    assert again.count("It was here already.") == len(steps)


def test_what_is_wrong_in_it_is_told_and_the_rest_is_taken(olga, phone, steps):
    page = bring(olga, saved(phone.step("none"), "nonsense", phone.step(steps[0]))).get_data(
        as_text=True
    )
    assert page.count("Taken in.") == 1
    assert "The lesson has no such step." in page
    assert "An item must be JSON." in page


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"\xff\xfe",
        b"[]",
        saved(format="other"),
        saved(version=2),
        {"format": "lowport-outbox", "version": 1, "items": [1]},
    ],
)
def test_another_file_is_refused_with_a_sentence(olga, data):
    answer = bring(olga, data)
    assert answer.status_code == 422
    assert 'id="file-error"' in answer.get_data(as_text=True)


def test_a_worker_may_not_bring_files(ola):
    assert ola.get("/outbox/import").status_code == 403


def test_a_kind_that_must_come_from_its_own_person_is_not_taken_from_a_file(
    app, olga, phone, monkeypatch
):
    from app.web.outbox.kinds import Kind

    own = Kind("own-only", lambda connection, arrival: {}, may_come_by_file=False)
    monkeypatch.setitem(app.extensions["lowport_outbox_kinds"], "own-only", own)
    page = bring(olga, saved(phone.item("own-only", {}))).get_data(as_text=True)
    assert "must be sent by the person who made it" in page
