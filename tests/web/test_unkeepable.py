"""A character that no database column can keep is refused with a sentence, wherever it comes in.

PostgreSQL's manual, section 8.3: "The character with code zero cannot be stored" in text. A lone
surrogate is no character at all (Unicode Standard, D71 to D75), so it has no UTF-8.
"""

import json
from io import BytesIO

import pytest
from flask import Flask
from flask.testing import FlaskClient

from tests.conftest import PASSWORD
from tests.web.phone import Phone, send, send_all

SENTENCE = "Nothing was saved. Nobody can see this character"


@pytest.fixture
def olga(cast) -> FlaskClient:
    cast.add("olga", "safety-officer", printed_name="Olga Invented")
    return cast.sign_in("olga")


def refused(answer) -> None:
    page = answer.get_data(as_text=True)
    assert answer.status_code == 400, page
    assert SENTENCE in page
    assert "Lowport" in page  # in the app's own look


def test_in_a_field_of_a_form(client: FlaskClient, olga: FlaskClient):
    refused(client.post("/sign-in", data={"sign_in_name": "ol\0ga", "password": PASSWORD}))
    refused(olga.post("/people/new", data={"printed_name": "Ada\0 Invented"}))
    refused(olga.post("/people/new", data={"printed\0name": "Ada"}))


def test_in_every_field_of_a_list(olga: FlaskClient):
    refused(olga.post("/people/new", data={"roles": ["worker", "trai\0ner"]}))


def test_in_an_address(client: FlaskClient, olga: FlaskClient):
    refused(olga.get("/people?name=a%00b"))
    refused(olga.get("/people?na%00me=ab"))
    refused(olga.get("/people/%00"))
    refused(client.get("/learn/%00"))  # nobody signed in


def test_in_the_name_of_a_file(olga: FlaskClient):
    data = {"file": (BytesIO(b"{}"), "from\0phone.json")}
    refused(olga.post("/outbox/import", data=data, content_type="multipart/form-data"))


def test_text_without_one_goes_through(olga: FlaskClient):
    # Other signs that look odd are somebody's name, or their language.
    answer = olga.get("/people", query_string={"name": "Núñez 王 \U0001f9e4 \x7f"})
    assert answer.status_code == 200


@pytest.mark.parametrize("sign", ["\0", "\ud800"])
def test_in_a_thing_a_phone_sends_only_that_thing_is_refused(ola, phone: Phone, steps, sign):
    bad = phone.step(f"step{sign}")
    assert sign not in bad  # JSON writes it as an escape, so it travels
    deep = phone.item("step-done", {"module": "safety-gear", "more": [{f"a{sign}": 1}]})
    good = phone.step(steps[0])
    first, second, third = send_all(ola, bad, deep, good)
    for outcome in (first, second):
        assert (outcome["status"], outcome["problem"]["code"]) == (422, "unkeepable")
        assert "Type it again by hand." in outcome["problem"]["detail"]
    assert third["status"] == 201
    assert send(ola, bad).status_code == 422


def test_in_the_number_of_a_phone(app: Flask, ola, phone: Phone, steps):
    body = json.dumps({"items": [phone.step(steps[0])], "issued": {"phone\0": 3}})
    assert send(ola, body).get_json()["outcomes"][0]["status"] == 201
