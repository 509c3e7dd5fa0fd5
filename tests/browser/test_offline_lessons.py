"""After one visit to Learn the modules are on the phone, and a lesson works without signal."""

import re

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from app.demo.crew import DEMO_PASSWORD
from tests.browser.conftest import FLAGS, PHONE, chromium_path
from tests.browser.phones import (
    follow,
    receipts_on_server,
    steps_on_server,
    wait_until_sent,
    waiting,
)


def keep_modules(page: Page) -> None:
    """Wait until Learn says that every module is on the phone."""
    expect(page.locator("[data-keep]")).to_have_text("8 of 8 modules on this phone", timeout=60000)


def go_through(page: Page) -> tuple[int, int, int]:
    """Press the big button on each card until the module's own page is back; count what was seen.

    Returns how many cards, figures and cautions there were.
    """
    cards = figures = cautions = 0
    while page.locator("article.step").count():
        figures += page.locator("article.step figure svg:visible").count()
        cautions += page.locator("article.step .signal:visible").count()
        with page.expect_navigation():
            page.get_by_role("button", name="Done.").click()
        cards += 1
        assert cards < 20
    return cards, figures, cautions


@pytest.fixture
def nia(open_page) -> Page:
    page = open_page("nia", PHONE)
    page.set_default_timeout(40_000)
    page.goto("/learn")
    keep_modules(page)
    return page


def test_a_screen_says_what_is_really_there(nia):
    nia.goto("/on-this-phone")
    expect(nia.locator("#kept-count")).to_have_text("8 of 8 modules on this phone")
    nia.evaluate(
        """async () => {
          const names = await caches.keys();
          const cache = await caches.open(names.find((name) => name.includes("-person-")));
          await cache.delete("/learn/shutdown/steps/2");
          await cache.put("/learn/shutdown/steps/3", new Response("<html>torn off"));
        }"""
    )
    nia.reload()
    expect(nia.locator("#kept-count")).to_have_text("7 of 8 modules on this phone")
    nia.get_by_role("button", name="Fetch everything again").click()
    expect(nia.locator("#kept-count")).to_have_text("8 of 8 modules on this phone", timeout=60000)
    expect(nia.locator("#kept-files")).to_have_text("The program itself is complete.")


def test_a_lesson_from_start_to_end_without_signal(nia, server):
    nia.context.set_offline(True)
    nia.goto("/learn/safety-gear")
    expect(nia.locator("#unsent")).to_contain_text("No signal")
    follow(nia, nia.get_by_role("link", name="Start with step 1"))
    cards, figures, cautions = go_through(nia)
    assert 6 <= cards <= 12
    assert figures >= 2
    assert cautions >= 2
    expect(nia.locator("main")).to_contain_text("It goes on your record when there is signal.")
    expect(nia.locator("main")).to_contain_text(f"{cards} of {cards} done")
    assert steps_on_server(server.app, "nia") == []
    nia.context.set_offline(False)
    wait_until_sent(nia)
    assert len(steps_on_server(server.app, "nia")) == cards
    assert receipts_on_server(server.app) == cards
    nia.reload()
    expect(nia.get_by_role("button", name="Take the quiz")).to_be_visible()


def test_pages_kept_before_the_service_worker_was_at_work_are_shown_too(nia):
    """As on a slow phone's first visit: no page has told the service worker whose pages it has."""
    nia.evaluate(
        """async () => {
          await caches.delete("lowport-state");
          const main = document.querySelector('script[src$="/phone.js"]').src;
          const kept = await import(new URL("kept.js", main));
          await kept.keepAll(await kept.listOfPages());
        }"""
    )
    nia.context.set_offline(True)
    nia.goto("/learn/safety-gear")
    expect(nia.get_by_role("link", name="Start with step 1")).to_be_visible()


def test_a_step_left_out_is_asked_for_at_the_end(nia):
    nia.context.set_offline(True)
    nia.goto("/learn/safety-gear/steps/2")
    go = nia.get_by_role("button", name="Done.")
    for _ in range(20):
        with nia.expect_navigation():
            go.click()
        if nia.url.endswith("/steps/1"):
            break
    expect(nia.locator("main")).to_contain_text("One step before this is not done yet.")
    with nia.expect_navigation():
        go.click()


def test_a_page_that_is_not_kept_says_so_in_both_languages(nia):
    nia.context.set_offline(True)
    nia.goto("/my-standing")
    expect(nia.locator("main [lang=en] h2")).to_have_text("No signal")
    expect(nia.locator("main [lang=es] h2")).to_have_text("Sin señal")
    assert "Nia Fable" not in nia.content()
    nia.get_by_role("link", name="What is on this phone").first.click()
    expect(nia.locator("#kept-count")).to_have_text("8 of 8 modules on this phone")


def test_the_first_address_leads_to_learn_without_signal(nia):
    nia.context.set_offline(True)
    nia.goto("/")
    expect(nia.get_by_role("heading", level=1)).to_have_text("Learn")


def test_a_slow_answer_is_not_waited_for(nia, server):
    inner = server.server.app

    def slow(environ, start_response):
        if environ["PATH_INFO"] == "/learn/shutdown":
            import time

            time.sleep(8)
        return inner(environ, start_response)

    server.server.app = slow
    nia.goto("/learn/shutdown", timeout=7000)
    expect(nia.locator("html")).to_have_attribute("data-kept-from", re.compile(r"\d+"))


def test_a_form_sent_without_signal_is_not_lost(nia):
    nia.goto("/learn")
    nia.context.set_offline(True)
    nia.get_by_role("button", name="Basement").click()
    expect(nia.get_by_role("heading", name="No signal").first).to_be_visible()
    nia.go_back()
    expect(nia.get_by_role("heading", level=1)).to_have_text("Learn")


CACHES = "async () => (await caches.keys()).filter((name) => name.includes('-person-'))"


def test_signing_out_takes_the_lessons_off_the_phone(nia):
    assert len(nia.evaluate(CACHES)) == 1
    nia.get_by_role("button", name="Sign out").click()
    nia.wait_for_url("**/sign-in")
    assert nia.evaluate(CACHES) == []
    nia.context.set_offline(True)
    nia.goto("/learn")
    expect(nia.get_by_role("heading", name="No signal").first).to_be_visible()


def test_somebody_elses_sign_in_takes_them_off_and_never_shows_them(nia):
    (mine,) = nia.evaluate(CACHES)
    nia.context.clear_cookies()
    sign_in(nia, "ben")
    expect(nia.locator(".who-name")).to_have_text("Ben Parable")
    assert mine not in nia.evaluate(CACHES)
    nia.context.set_offline(True)
    nia.goto("/learn/shutdown/steps/1")
    assert "Nia Fable" not in nia.content()


def sign_in(page: Page, name: str) -> None:
    page.goto("/sign-in")
    page.get_by_label("Sign-in name").fill(name)
    page.get_by_label("Password").fill(DEMO_PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/learn")


def test_after_the_browser_was_killed_everything_is_still_there(browser: Browser, server, tmp_path):
    def open_browser() -> BrowserContext:
        return browser.browser_type.launch_persistent_context(
            tmp_path / "profile",
            executable_path=chromium_path(),
            args=FLAGS,
            viewport=PHONE,
            base_url=server.url,
        )

    context = open_browser()
    page = context.pages[0]
    sign_in(page, "nia")
    keep_modules(page)
    context.set_offline(True)
    page.goto("/learn/safety-gear/steps/1")
    for _ in range(3):
        with page.expect_navigation():
            page.get_by_role("button", name="Done.").click()
    assert len(waiting(page)) == 3
    context.close()

    context = open_browser()
    context.set_offline(True)
    page = context.pages[0]
    page.goto("/learn/safety-gear")
    expect(page.locator("#unsent")).to_contain_text("3 not sent yet")
    expect(page.locator("main")).to_contain_text("3 of 12 done")
    context.set_offline(False)
    sign_in(page, "nia")  # a closed browser forgets its session
    wait_until_sent(page)
    assert len(steps_on_server(server.app, "nia")) == 3
    assert receipts_on_server(server.app) == 3
    context.close()
