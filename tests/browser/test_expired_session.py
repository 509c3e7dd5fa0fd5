"""The session ends while things wait on a phone: the page says what to do, and nothing is lost."""

from playwright.sync_api import Page, expect

from app.accounts.sessions import end_all_sessions
from app.database import writing
from app.demo.crew import DEMO_PASSWORD
from app.web.now import system_clock
from tests.browser.conftest import PHONE, LiveServer
from tests.browser.phones import (
    keep_step,
    receipts_on_server,
    steps_on_server,
    wait_until_sent,
    waiting,
)


def end_session(server: LiveServer, page: Page) -> None:
    """End it on the server, as time or a safety officer does; the phone is told nothing."""
    person = page.evaluate("document.documentElement.dataset.person")
    with server.app.app_context(), writing() as connection:
        end_all_sessions(connection, person, system_clock())


def test_what_waits_is_told_kept_and_sent_once_after_signing_in(open_page, server: LiveServer):
    page = open_page("nia", PHONE)
    end_session(server, page)
    for step in ("eyes", "gloves"):
        keep_step(page, step)
    line = page.locator("#unsent")
    expect(line).to_have_text("2 not sent yet: sign in again to send it")
    kept = waiting(page)
    line.get_by_role("link").click()
    page.wait_for_url("**/sign-in")
    expect(page.locator("#kept-here")).to_have_text(
        "Not sent yet: 2, by Nia Fable. It is kept on this phone and sent once they have signed in."
    )
    assert steps_on_server(server.app, "nia") == []
    page.get_by_label("Sign-in name").fill("nia")
    page.get_by_label("Password").fill(DEMO_PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/outbox")  # where the line led to
    wait_until_sent(page)
    expect(page.locator("#outbox-state")).to_have_text("Nothing waits here.")
    expect(line).to_be_hidden()
    assert sorted(steps_on_server(server.app, "nia")) == ["eyes", "gloves"]
    assert receipts_on_server(server.app) == len(kept) == 2


def test_send_now_says_to_sign_in_and_keeps_everything(open_page, server: LiveServer):
    page = open_page("nia", PHONE)
    page.goto("/outbox")
    end_session(server, page)
    keep_step(page, "eyes")
    page.get_by_role("button", name="Send now").click()
    expect(page.locator("#outbox-state")).to_have_text(
        "You are signed out. Sign in, and it is sent."
    )
    assert [item["problem"] for item in waiting(page)] == [None]
