"""Installable, readable at 320 px and both ways round, and able to read a step aloud."""

import json

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from tests.browser.conftest import PHONE
from tests.browser.phones import keep_step

NARROW = {"width": 320, "height": 640}
ACROSS = {"width": 640, "height": 320}
PAGES = ["/learn", "/learn/port-setting", "/learn/port-setting/steps/1", "/on-this-phone"]
PAGES += ["/learn/port-setting/practice", "/outbox", "/offline"]

# Two voices of a phone, one for each language, and what was asked of them.
VOICES = """
  window.said = [];
  const voices = [{lang: "en-US", localService: true}, {lang: "es-MX", localService: true}];
  const speech = {
    speaking: false,
    getVoices: () => voices.filter((one) => WANTED.includes(one.lang)),
    speak(piece) { this.speaking = true; window.said.push([piece.lang, piece.text]); },
    cancel() { this.speaking = false; },
    addEventListener() {},
  };
  Object.defineProperty(window, "speechSynthesis", { value: speech });
  window.SpeechSynthesisUtterance = class {
    constructor(text) { this.text = text; }
  };
"""


@pytest.mark.parametrize("viewport", [NARROW, ACROSS], ids=["narrow", "across"])
def test_no_page_is_wider_than_the_phone(open_page, viewport):
    page = open_page("nia", viewport)
    for path in PAGES:
        page.goto(path)
        wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
        assert wide <= 0, f"{path} is {wide} px too wide"


def test_the_browser_would_install_it(open_page):
    page = open_page("nia", PHONE)
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    client = page.context.new_cdp_session(page)
    manifest = client.send("Page.getAppManifest")
    assert manifest["errors"] == []
    assert json.loads(manifest["data"])["display"] == "standalone"
    found = client.send("Page.getInstallabilityErrors")["installabilityErrors"]
    # A private window can't install anything; nothing else may be in the way.
    assert {one["errorId"] for one in found} <= {"in-incognito"}


def open_step(page: Page, voices: list[str], path: str = "/learn/port-setting/steps/1") -> None:
    page.add_init_script(VOICES.replace("WANTED", json.dumps(voices)))
    page.goto(path)


def test_a_step_is_read_aloud_in_the_pages_language(open_page):
    page = open_page("nia", PHONE)
    open_step(page, ["en-US", "es-MX"])
    button = page.get_by_role("button", name="Listen")
    button.click()
    said = page.evaluate("window.said")
    assert {language for language, _text in said} == {"en-US"}
    told = " ".join(text for _language, text in said)
    title = page.locator("article.step h2").inner_text()
    assert said[0][1] == title
    for part in ("Do", "Check", "Stop if", "Why"):
        assert part in told
    page.get_by_role("button", name="Stop reading").click()
    expect(button).to_be_visible()


def test_without_a_voice_for_the_language_there_is_no_button(open_page):
    page = open_page("nia", PHONE)
    open_step(page, ["es-MX"])
    expect(page.locator("article.step")).to_be_visible()
    expect(page.locator("[data-listen]")).to_be_hidden()


def test_somebody_else_signing_in_over_a_full_outbox_is_asked_first(open_page):
    page = open_page("nia", PHONE)
    page.route("**/outbox", lambda route: route.abort())
    keep_step(page, "eyes")
    page.goto("about:blank")  # what that page still fetches would bring a cookie of its own
    page.context.clear_cookies()
    page.goto("/sign-in")
    page.get_by_label("Sign-in name").fill("ben")
    page.get_by_label("Password").fill("wall-before-noon")
    page.get_by_role("button", name="Sign in").click()
    dialog = page.get_by_role("dialog")
    expect(dialog).to_contain_text("Not sent yet: 1, by Nia Fable.")
    dialog.get_by_role("button", name="Not now").click()
    assert page.url.endswith("/sign-in")
    page.get_by_role("button", name="Sign in").click()
    page.get_by_role("dialog").get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/learn")
    expect(page.locator("#unsent")).to_have_text("1 of somebody else not sent")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_the_phones_own_pages(open_page, scheme):
    page = open_page("nia", PHONE)
    page.emulate_media(color_scheme=scheme)
    for path in PAGES:
        page.goto(path)
        if path.endswith("/practice"):
            card = page.locator(".practice-question").filter(has=page.get_by_label("Your answer"))
            card.get_by_label("Your answer").first.fill("12345")
            card.get_by_role("button", name="Check it").first.click()
        if path == "/outbox":
            page.context.set_offline(True)
            keep_step(page, "eyes")
        found = Axe().run(page).response["violations"]
        page.context.set_offline(False)
        assert found == [], (path, [(one["id"], one["nodes"][0]["html"]) for one in found])
