"""A whole supervised repair without signal, in a real browser: one record, whatever comes."""

import hashlib
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from app.accounts.sessions import end_all_sessions
from app.curriculum.model import Curriculum
from app.database import writing
from app.factory import create_app
from app.web.now import system_clock
from tests.browser.conftest import DESK
from tests.browser.gated import GatedServer
from tests.browser.phones import wait_until
from tests.browser.wall import (
    WallPhone,
    at_the_wall,
    board_says,
    enrol,
    note_everything,
    outbox,
    sign,
    sign_in,
    take_down,
    take_photo,
    try_to_sign,
    wait_until_empty,
)
from tests.browser.wall_records import (
    held_text,
    one_record,
    receipts,
    record_of,
    supervised_repairs,
    the_photo_is_kept_without_its_place,
    verified,
)
from tests.conftest import settings_at


@pytest.fixture
def gated(tmp_path: Path, curriculum: Curriculum, demo_database: Path) -> Iterator[GatedServer]:
    (tmp_path / "lowport.db").write_bytes(demo_database.read_bytes())
    live = GatedServer(create_app(settings_at(tmp_path), curriculum=curriculum))
    yield live
    live.stop()


@pytest.fixture
def phone(browser: Browser, gated: GatedServer, tmp_path: Path) -> Iterator[WallPhone]:
    """The phone of Tomas, a trainer, registered for signing."""
    phone = WallPhone(browser, tmp_path / "phone", gated.url)
    sign_in(phone.page(), "tomas")
    enrol(phone.page())
    yield phone
    phone.context.close()


def go_down(phone: WallPhone, gated: GatedServer) -> tuple[Page, str]:
    """Take a repair onto the phone, then lose the signal and open it again."""
    page = phone.page()
    repair = take_down(page)
    at_the_wall(page, repair)
    gated.gate.state = "closed"
    phone.context.set_offline(True)
    at_the_wall(page, repair)
    return page, repair


def come_up(phone: WallPhone, gated: GatedServer) -> None:
    gated.gate.state = "open"
    phone.context.set_offline(False)


def test_without_signal_from_the_first_step_to_the_signature_and_after_a_restart_one_record(
    phone: WallPhone, gated: GatedServer, open_desk
):
    officer = open_desk("olga")
    assert "Lapsed" in board_says(officer, "Leo Epigram")
    before = supervised_repairs(gated.app)
    page, repair = go_down(phone, gated)
    ratio = page.locator('[data-item="ratio-sample/ratio-in-tolerance"]')
    note_everything(page, {"sample_b": "47.4 ml"})
    # 100 mL of A at 2:1 and 5 %: B from 47.5 to 52.5 mL; 47.4 is out (worked example).
    expect(ratio.locator("[data-verdict]")).to_contain_text("47.4 mL is OUT of limits")
    expect(page.locator("#wall-review")).to_contain_text("Not yet")
    ratio.get_by_label("Side B caught").fill("47.5 ml")
    expect(ratio.locator("[data-verdict]")).to_contain_text("Allowed: 47.5 mL to 52.5 mL")
    expect(page.locator("#wall-review")).to_contain_text("Pass")
    take_photo(page)
    expect(page.locator("#wall-review div").filter(has_text="Photos")).to_have_text("Photos1")
    page = phone.restart()  # the battery is empty before the signature
    phone.context.set_offline(True)
    at_the_wall(page, repair)
    expect(page.locator("#shots li")).to_have_count(1)
    try_to_sign(page, "000000")
    expect(page.locator("#sign-wrong")).to_contain_text("Nothing was signed")
    sign(page)
    expect(page.locator("#wall-signed")).to_contain_text("It is sent by itself")
    page = phone.restart()  # and again after it
    phone.context.set_offline(True)
    at_the_wall(page, repair)
    assert [item["kind"] for item in outbox(page)] == ["sign-off", "photo"]
    assert supervised_repairs(gated.app) == before
    come_up(phone, gated)
    sign_in(page, "tomas")  # the browser that was killed forgot its session
    wait_until_empty(page)
    at_the_wall_again(page, repair)
    assert supervised_repairs(gated.app) == [*before, repair]
    record, signed = record_of(gated.app, repair), verified(gated.app, repair)
    assert record.passed
    assert record.observation.signature.way == "device"
    assert signed["verdict"] == "pass"
    assert record.observation.comment == signed["remarks"] == "Good hands. Keep the log nearer."
    assert (receipts(gated.app, "sign-off"), receipts(gated.app, "photo")) == (1, 1)
    the_photo_is_kept_without_its_place(gated, repair)
    assert "Current" in board_says(officer, "Leo Epigram")
    page.goto(f"/repairs/{repair}")
    expect(page.locator("main")).to_contain_text("Signed on a phone, with its key")
    page.locator("figure.photo img").scroll_into_view_if_needed()
    expect(page.locator("figure.photo img")).to_have_js_property("naturalWidth", 800)


def at_the_wall_again(page: Page, repair: str) -> None:
    """The page that was kept leads to the record now."""
    page.goto(f"/repairs/{repair}/at-the-wall")
    page.wait_for_url(f"**/repairs/{repair}")


@pytest.fixture
def open_desk(browser: Browser, gated: GatedServer):
    contexts = []

    def opened(name: str) -> Page:
        context = browser.new_context(viewport=DESK, base_url=gated.url)
        contexts.append(context)
        page = context.new_page()
        sign_in(page, name)
        return page

    yield opened
    for context in contexts:
        context.close()


def test_three_tabs_of_one_repair_make_one_record(phone: WallPhone, gated: GatedServer):
    page, repair = go_down(phone, gated)
    tabs = [page, phone.context.new_page(), phone.context.new_page()]
    for tab in tabs[1:]:
        at_the_wall(tab, repair)
    note_everything(page)
    for tab in tabs:
        expect(tab.locator("#wall-sign")).to_be_visible()  # the others followed
        tab.get_by_label("Your signing number").fill("274016")
    for tab in tabs:
        tab.evaluate("document.querySelector('#wall-sign').requestSubmit()")
    for tab in tabs:
        expect(tab.locator("#wall-signed")).to_contain_text("It is sent by itself")
    assert [item["kind"] for item in outbox(page)] == ["sign-off"]
    come_up(phone, gated)
    wait_until_empty(page)
    for tab in tabs:
        expect(tab.locator("#wall-signed")).to_contain_text("Signed and kept")
    one_record(gated, repair)


def test_a_server_in_trouble_gets_it_later(phone: WallPhone, gated: GatedServer):
    page, repair = go_down(phone, gated)
    note_everything(page)
    sign(page)
    gated.gate.state, gated.gate.only_outbox = "trouble", True
    phone.context.set_offline(False)
    page.wait_for_timeout(700)
    assert [item["problem"] for item in outbox(page)] == [None]
    assert repair not in supervised_repairs(gated.app)
    gated.gate.state = "open"
    page.goto("/outbox")  # a page that opens sends what waits
    wait_until_empty(page)
    one_record(gated, repair)


def test_an_answer_lost_after_the_commit_is_no_second_record(phone: WallPhone, gated: GatedServer):
    page, repair = go_down(phone, gated)
    note_everything(page)
    sign(page)
    gated.gate.state = "drops-answer"
    phone.context.set_offline(False)
    wait_until(page, lambda: repair in supervised_repairs(gated.app), "the server has no record")
    assert [item["kind"] for item in outbox(page)] == ["sign-off"]  # no receipt, so it stays
    first = record_of(gated.app, repair)
    gated.gate.state = "open"
    page.goto("/outbox")  # a page that opens sends what waits
    wait_until_empty(page)
    one_record(gated, repair)
    assert record_of(gated.app, repair) == first


def test_an_ended_session_holds_it_until_the_next_sign_in(phone: WallPhone, gated: GatedServer):
    page, repair = go_down(phone, gated)
    note_everything(page)
    sign(page)
    person = page.evaluate("document.documentElement.dataset.person")
    with gated.app.app_context(), writing() as connection:
        end_all_sessions(connection, person, system_clock())
    come_up(phone, gated)
    expect(page.locator("#unsent")).to_contain_text("sign in again")
    assert repair not in supervised_repairs(gated.app)
    sign_in(page, "tomas")
    wait_until_empty(page)
    one_record(gated, repair)


def test_an_update_of_the_app_in_between_changes_nothing_that_was_noted(
    phone: WallPhone, gated: GatedServer, monkeypatch: pytest.MonkeyPatch
):
    page, repair = go_down(phone, gated)
    note_everything(page)
    new_scripts_are_published(monkeypatch)
    come_up(phone, gated)
    at_the_wall(page, repair)  # fetched anew, with the new version's scripts
    wait_until(page, lambda: "f" * 16 in page.evaluate(KEPT), "the new page was not kept")
    phone.context.set_offline(True)
    gated.gate.state = "closed"
    page = phone.restart()
    phone.context.set_offline(True)
    at_the_wall(page, repair)
    assert "f" * 16 in page.locator('script[src*="at-the-wall"]').get_attribute("src")
    sign(page)
    expect(page.locator("#wall-signed")).to_contain_text("It is sent by itself")
    come_up(phone, gated)
    sign_in(page, "tomas")
    wait_until_empty(page)
    one_record(gated, repair)


# The words of this page's copy on the phone.
KEPT = """async () => {
  const kept = await caches.match(location.pathname, { ignoreVary: true });
  return kept ? kept.text() : "";
}"""


def new_scripts_are_published(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every script has a new address, and the service worker a new text."""
    from app.web import offline_assets, pages, scripts, views

    for module in (offline_assets, pages, views, scripts):
        if hasattr(module, "scripts_digest"):
            monkeypatch.setattr(module, "scripts_digest", lambda: "f" * 16)
    offline_assets.shell_digest.cache_clear()
    monkeypatch.setattr(offline_assets, "shell_digest", lambda: "e" * 16)


def test_a_phone_that_keeps_no_key_sends_it_and_the_password_makes_the_record(
    browser: Browser, gated: GatedServer, tmp_path: Path
):
    phone = WallPhone(browser, tmp_path / "old-phone", gated.url)
    sign_in(phone.page(), "tomas")
    page, repair = go_down(phone, gated)
    note_everything(page)
    expect(page.locator("#without-key")).to_be_visible()
    sign(page, "")
    come_up(phone, gated)
    wait_until_empty(page)
    assert repair not in supervised_repairs(gated.app)
    page.get_by_role("link", name="Confirm it now").click()
    expect(page.locator("main")).to_contain_text("It is no record yet")
    page.get_by_label("Your password").fill("wall-before-noon")
    page.get_by_role("button", name="Sign.").click()
    expect(page.locator("main")).to_contain_text("signed later with the password")
    record = record_of(gated.app, repair)
    assert record.observation.signature.way == "password"
    signed = hashlib.sha256(held_text(gated.app, repair).encode()).hexdigest()
    assert record.observation.device.sha256 == signed
    phone.context.close()


def test_signing_out_with_a_signed_repair_on_the_phone_asks_first(
    phone: WallPhone, gated: GatedServer
):
    page, repair = go_down(phone, gated)
    note_everything(page)
    sign(page)
    gated.gate.state, gated.gate.only_outbox = "closed", True
    phone.context.set_offline(False)
    page.get_by_role("button", name="Sign out").click()
    dialog = page.get_by_role("dialog")
    expect(dialog).to_contain_text("Not sent yet: 1.")
    dialog.get_by_role("button", name="Stay signed in").click()
    gated.gate.state = "open"
    page.goto("/outbox")  # a page that opens sends what waits
    wait_until_empty(page)
    one_record(gated, repair)
