"""A new version of the program never breaks what somebody is in the middle of."""

import pytest
from playwright.sync_api import Page, expect

from app.web import offline_assets
from tests.browser.conftest import PHONE
from tests.browser.phones import keep_step, wait_until_sent, wait_until_true, waiting

ACTIVE = "async () => (await caches.keys()).filter((name) => name.includes('-shell-')).sort()"
WAITS = "navigator.serviceWorker.ready.then((registration) => Boolean(registration.waiting))"
UPDATE = "async () => { await (await navigator.serviceWorker.ready).update(); }"


@pytest.fixture
def nia(open_page) -> Page:
    page = open_page("nia", PHONE)
    page.set_default_timeout(40_000)
    page.goto("/learn/ratio-sample/practice")
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.goto("/learn/ratio-sample/practice")  # a page opened earlier may stay without the worker
    wait_until_true(page, "navigator.serviceWorker.controller !== null")
    no_longer_fresh(page)
    return page


def no_longer_fresh(page: Page) -> None:
    """Until the page has asked for a new version once, and is not one just opened any more."""
    page.wait_for_load_state("networkidle")
    page.wait_for_timeout(4100)


def changes_over(page: Page, name: str) -> None:
    """Until only the new version is left, with no other page opened meanwhile."""
    is_only = f"({ACTIVE})().then((names) => names.length === 1 && names[0] === '{name}')"
    wait_until_true(page, is_only)


@pytest.fixture
def release(monkeypatch):
    """Puts out a new version: the same files under another name, as any change would give."""

    def out(name: str) -> str:
        monkeypatch.setattr(offline_assets, "shell_digest", lambda: name)
        return f"lowport-shell-{name}"

    return out


def test_a_page_that_stays_open_gets_a_quiet_notice_and_changes_at_a_press(nia, release):
    new = release("b" * 16)
    nia.evaluate(UPDATE)
    notice = nia.locator("#new-version")
    expect(notice).to_contain_text("A new version is ready.")
    assert len(nia.evaluate(ACTIVE)) == 2  # the old one still serves
    with nia.expect_navigation():
        notice.get_by_role("button", name="Use it").click()
    wait_until_true(nia, "navigator.serviceWorker.controller.state === 'activated'")
    assert nia.evaluate(ACTIVE) == [new]


def test_half_filled_forms_in_any_tab_hold_it_back(nia, release):
    other = nia.context.new_page()
    other.goto("/learn/shutdown/practice")
    field = other.locator(".practice-question input").first
    field.check() if field.get_attribute("type") == "radio" else field.fill("12")
    no_longer_fresh(other)
    new = release("c" * 16)
    nia.evaluate(UPDATE)
    notice = nia.locator("#new-version")
    notice.get_by_role("button", name="Use it").click()
    expect(notice).to_contain_text("It waits")
    assert new in nia.evaluate(ACTIVE)
    assert len(nia.evaluate(ACTIVE)) == 2
    nia.goto("/my-standing")  # a page opened afresh does not take over either
    nia.wait_for_timeout(500)
    assert len(nia.evaluate(ACTIVE)) == 2
    other.goto("/my-standing")  # the form was left: now it may
    changes_over(other, new)


@pytest.mark.parametrize("turn", "abcd")
def test_a_page_opened_afresh_changes_over_and_the_next_one_does_not_hang(nia, release, turn):
    """Without the frame out of sight about one turn in four stays between the two versions."""
    new = release(turn * 16)
    nia.evaluate(UPDATE)
    wait_until_true(nia, WAITS)
    nia.goto("/learn")  # all modules come onto the phone, so the old worker has much to do
    changes_over(nia, new)
    expect(nia.locator("iframe")).to_have_count(0)
    nia.goto("/my-standing")
    expect(nia.get_by_role("heading", name="My standing")).to_be_visible()


def test_what_waits_survives_a_new_version_in_between(nia, release, server):
    nia.context.set_offline(True)
    keep_step(nia, "eyes")
    nia.route("**/outbox", lambda route: route.abort())
    nia.context.set_offline(False)
    new = release("d" * 16)
    nia.evaluate(UPDATE)
    wait_until_true(nia, WAITS)
    nia.goto("/learn")
    changes_over(nia, new)
    assert len(waiting(nia)) == 1
    nia.unroute("**/outbox")
    nia.goto("/learn")
    wait_until_sent(nia)


def test_a_page_kept_from_the_version_before_still_has_its_looks(nia, release):
    old = nia.evaluate("document.querySelector('link[rel=stylesheet]').href")
    script = nia.evaluate("document.querySelector('script[type=module]').src")
    nia.context.set_offline(True)
    for url, name in ((old, "book-"), (script, "js-")):
        before, _mark, after = url.partition(name)
        other = before + name + "0" * 16 + after[16:]
        status = nia.evaluate("async (url) => (await fetch(url)).status", other)
        assert status == 200, other
