"""Signing in and out, sessions that end, and a pause after too many wrong passwords."""

from flask import Flask

from app.accounts.people import set_active, set_roles
from app.accounts.sessions import end_all_sessions
from app.accounts.sign_in import MOST_FAILURES
from app.database import writing
from tests.conftest import PASSWORD


def post(client, name: str, password: str):
    return client.post("/sign-in", data={"sign_in_name": name, "password": password})


def test_after_signing_in_the_page_asked_for_opens(app: Flask, cast):
    cast.add("ola.worker")
    client = app.test_client()
    assert client.get("/my-standing").location == "/sign-in"
    assert post(client, "OLA.worker", PASSWORD).location == "/my-standing"
    assert client.get("/my-standing").status_code == 200


def test_what_a_phone_fetched_in_the_background_is_not_what_opens_after_signing_in(
    app: Flask, cast
):
    """Sec-Fetch-Mode as browsers send it: Fetch Metadata Request Headers, W3C."""
    cast.add("ola.worker")
    client = app.test_client()
    client.get("/my-standing", headers={"Sec-Fetch-Mode": "navigate"})
    fetched = client.get("/learn", headers={"Sec-Fetch-Mode": "cors"})
    assert fetched.location == "/sign-in"
    assert "Set-Cookie" not in fetched.headers  # it may arrive after the sign-in, and undo it
    assert post(client, "ola.worker", PASSWORD).location == "/my-standing"


def test_a_wrong_pair_gets_one_sentence_and_keeps_the_name(client, cast):
    cast.add("ola.worker")
    for name, password in [("ola.worker", "wrong password"), ("nobody.here", PASSWORD)]:
        answer = post(client, name, password)
        assert answer.status_code == 422
        page = answer.get_data(as_text=True)
        assert "don&#39;t belong together" in page
        assert f'value="{name}"' in page


def test_too_many_wrong_passwords_bring_a_pause(client, cast, clock):
    cast.add("ola.worker")
    for _ in range(MOST_FAILURES):
        post(client, "ola.worker", "wrong password")
    assert "Wait 15 minutes" in post(client, "ola.worker", PASSWORD).get_data(as_text=True)
    clock.pass_time(minutes=16)
    assert post(client, "ola.worker", PASSWORD).status_code == 302


def test_signing_out_ends_the_session_on_the_server(app: Flask, cast):
    cast.add("ola.worker")
    client = cast.sign_in("ola.worker")
    kept = client.get_cookie("lowport")
    client.post("/sign-out")
    thief = app.test_client()
    thief.set_cookie("lowport", kept.value)
    assert thief.get("/my-standing").location == "/sign-in"


def test_sessions_end_when_told_when_idle_and_when_old(app: Flask, cast, clock):
    person = cast.add("ola.worker")
    client = cast.sign_in("ola.worker")
    with app.app_context(), writing() as connection:
        end_all_sessions(connection, person, clock())
    assert client.get("/my-standing").status_code == 302
    client = cast.sign_in("ola.worker")
    clock.pass_time(hours=10, minutes=1)
    assert client.get("/my-standing").status_code == 302
    client = cast.sign_in("ola.worker")
    for _ in range(2):
        clock.pass_time(hours=6)
        assert client.get("/my-standing").status_code == 200
    clock.pass_time(hours=2, minutes=1)
    assert client.get("/my-standing").status_code == 302


def test_a_person_made_inactive_is_out_at_once(app: Flask, cast):
    cast.add("first.officer", "safety-officer")
    person = cast.add("ola.worker")
    client = cast.sign_in("ola.worker")
    with app.app_context(), writing() as connection:
        set_active(connection, person, False)
    assert client.get("/my-standing").status_code == 302
    assert post(app.test_client(), "ola.worker", PASSWORD).status_code == 422


def test_a_role_given_or_taken_away_holds_from_the_next_page_on(app: Flask, cast):
    person = cast.add("ola.worker", "worker")
    client = cast.sign_in("ola.worker")
    for roles, codes in ((["trainer"], (403, 200)), (["worker", "trainer"], (200, 200))):
        with app.app_context(), writing() as connection:
            set_roles(connection, person, roles)
        assert tuple(client.get(page).status_code for page in ("/learn", "/jobs")) == codes


def test_a_form_without_its_token_is_refused_in_plain_words(app: Flask, cast):
    cast.add("ola.worker")
    app.config["WTF_CSRF_ENABLED"] = True
    answer = post(app.test_client(), "ola.worker", PASSWORD)
    assert answer.status_code == 400
    assert "open too long" in answer.get_data(as_text=True)


def test_after_signing_in_nobody_is_sent_to_another_site(app: Flask, cast):
    cast.add("ola.worker")
    client = cast.sign_in("ola.worker")
    for path in ("//evil.example", "https://evil.example", "/\\evil.example", "evil"):
        assert client.post("/show", data={"units": "metric", "back": path}).location == "/"


def test_choices_are_kept_with_the_person(cast):
    cast.add("ola.worker")
    client = cast.sign_in("ola.worker")
    answer = client.post("/show", data={"units": "metric", "back": "/my-standing"})
    assert answer.location == "/my-standing"
    assert 'data-units="metric"' in cast.sign_in("ola.worker").get("/learn").get_data(as_text=True)


def test_the_language_of_the_browser_is_understood(client):
    # Babel's negotiation: es-MX first means Spanish; best_match of the HTTP library says English.
    page = client.get("/sign-in", headers={"Accept-Language": "es-MX,en;q=0.5"})
    assert '<html lang="es"' in page.get_data(as_text=True)
