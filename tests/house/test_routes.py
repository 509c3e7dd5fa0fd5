"""Every route is closed unless it is listed as open, and every answer carries the headers."""

import pytest
from flask import Flask

from app.web.audience import OPEN_ENDPOINTS
from app.web.headers import CONTENT_SECURITY_POLICY

ROLE_OF = {"worker": "worker", "trainer": "trainer", "officer": "safety-officer"}


def some_url(app: Flask, rule) -> str:
    """A URL for the rule, with a made-up value for each place in it."""
    values = {
        name: 1 if "Integer" in type(c).__name__ else "none" for name, c in rule._converters.items()
    }
    with app.test_request_context():
        return app.url_map.bind("localhost").build(rule.endpoint, values)


def rules(app: Flask) -> list:
    return [r for r in app.url_map.iter_rules() if r.endpoint not in ("static",)]


def test_a_stranger_is_sent_to_the_sign_in_page(app: Flask):
    closed = [r for r in rules(app) if r.endpoint not in OPEN_ENDPOINTS]
    assert len(closed) > 10
    for rule in closed:
        method = "GET" if "GET" in rule.methods else "POST"
        answer = app.test_client().open(some_url(app, rule), method=method)
        assert (answer.status_code, answer.location) == (302, "/sign-in"), rule


def test_open_pages_are_few_and_each_exists(app: Flask):
    known = {r.endpoint for r in app.url_map.iter_rules()} | {"static"}
    assert known >= OPEN_ENDPOINTS
    assert len(OPEN_ENDPOINTS) < 12


@pytest.mark.parametrize("role", ["worker", "trainer", "safety-officer"])
def test_pages_of_another_role_are_forbidden(app: Flask, cast, role: str):
    cast.add("first.officer", "safety-officer")
    cast.add("pat.role", role)
    client = cast.sign_in("pat.role")
    for rule in rules(app):
        blueprint = rule.endpoint.split(".")[0]
        if blueprint in ROLE_OF and ROLE_OF[blueprint] != role:
            method = "GET" if "GET" in rule.methods else "POST"
            answer = client.open(some_url(app, rule), method=method)
            assert answer.status_code == 403, rule


@pytest.mark.parametrize("path", ["/sign-in", "/no-such-page", "/sources"])
def test_every_answer_carries_the_headers(client, path: str):
    answer = client.get(path)
    assert answer.headers["Content-Security-Policy"] == CONTENT_SECURITY_POLICY
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert answer.headers["Referrer-Policy"] == "same-origin"
    assert "no-cache" in answer.headers["Cache-Control"]


def test_errors_wear_the_apps_own_look(app: Flask, cast):
    cast.add("ola.worker", "worker")
    client = cast.sign_in("ola.worker")
    for answer, code in [
        (client.get("/no-such-page"), 404),
        (client.delete("/sign-in"), 405),
        (client.post("/show", data={"x": "y" * 3_000_000}), 413),
    ]:
        assert answer.status_code == code
        assert "<h1" in answer.get_data(as_text=True)
    assert "POST" in client.delete("/sign-in").headers["Allow"]


def test_no_page_shows_an_exceptions_text(app: Flask, cast, monkeypatch):
    cast.add("ola.worker", "worker")
    client = cast.sign_in("ola.worker")
    app.config["PROPAGATE_EXCEPTIONS"] = False

    def breaks():
        raise RuntimeError("secret-of-the-house")

    monkeypatch.setitem(app.view_functions, "web.home", breaks)
    answer = client.get("/")
    assert answer.status_code == 500
    assert "secret-of-the-house" not in answer.get_data(as_text=True)
    assert "Nothing was half saved" in answer.get_data(as_text=True)
