"""What is done without signal arrives exactly once, whatever happens on the way."""

import json

import pytest
from playwright.sync_api import Page, Route, expect

from app.accounts.sessions import end_all_sessions
from app.database import writing
from app.web.now import system_clock
from tests.browser.conftest import PHONE
from tests.browser.phones import (
    keep_step,
    receipts_on_server,
    steps_on_server,
    wait_until,
    wait_until_sent,
    waiting,
    with_outbox,
)

STEPS = ["read-sheets", "eyes", "gloves"]


@pytest.fixture
def nia(open_page) -> Page:
    return open_page("nia", PHONE)


def test_without_signal_it_waits_and_says_so_and_goes_when_signal_is_back(nia, server):
    nia.context.set_offline(True)
    keep_step(nia, "eyes")
    expect(nia.locator("#unsent")).to_have_text("1 not sent yet, oldest 1 min")
    assert steps_on_server(server.app, "nia") == []
    nia.context.set_offline(False)  # the browser says "online": one of the four triggers
    wait_until_sent(nia)
    expect(nia.locator("#unsent")).to_be_hidden()
    assert steps_on_server(server.app, "nia") == ["eyes"]


def test_without_signal_nobody_waits_for_an_answer_that_cannot_come(nia):
    nia.context.set_offline(True)
    payload = {"module": "safety-gear", "revision": 1, "step": "eyes"}
    keep_and_ask = """
      const { id } = await box.keep("step-done", given);
      const tired = new Promise((resolve) => setTimeout(resolve, 20000, "still waiting"));
      return await Promise.race([box.sent(id, 3600000), tired]);
    """
    assert with_outbox(nia, keep_and_ask, payload) == {}  # not in an hour, but now
    assert len(waiting(nia)) == 1


def test_with_signal_the_answer_is_waited_for(nia):
    payload = {"module": "safety-gear", "revision": 1, "step": "eyes"}
    keep_and_ask = """
      const { id } = await box.keep("step-done", given);
      return (await box.sent(id, 3600000)).receipt.id === id;
    """
    assert with_outbox(nia, keep_and_ask, payload)


def test_signal_that_comes_back_unsaid_is_found_again(nia, server):
    """A phone may be on a network again and never say so: the page just stays open."""
    nia.route("**/outbox", lambda route: route.abort())
    keep_step(nia, "eyes")
    nia.evaluate("window.addEventListener('online', () => { window.saidOnline = true; })")
    nia.unroute("**/outbox")
    wait_until_sent(nia)
    assert steps_on_server(server.app, "nia") == ["eyes"]
    assert not nia.evaluate("window.saidOnline")


def is_sending(request) -> bool:
    """A sending, not the phone's own look at the page of that address."""
    return request.method == "POST" and request.url.endswith("/outbox")


def test_three_tabs_send_each_thing_once(nia, server):
    tabs = [nia, nia.context.new_page(), nia.context.new_page()]
    for tab in tabs[1:]:
        tab.goto("/learn")
    answered = []
    nia.context.on(
        "response", lambda r: answered.append(r.request) if is_sending(r.request) else None
    )
    nia.context.set_offline(True)
    for tab, step in zip(tabs, STEPS, strict=True):
        keep_step(tab, step)
    nia.context.set_offline(False)
    for tab in tabs:
        with_outbox(tab, "box.send()")
    wait_until_sent(nia)
    assert sorted(steps_on_server(server.app, "nia")) == sorted(STEPS)
    assert receipts_on_server(server.app) == 3
    sent = [text for r in answered for text in json.loads(r.post_data)["items"]]
    assert len(sent) == len(set(sent)) == 3


def test_the_numbers_of_three_tabs_have_no_gap_and_no_double(nia):
    nia.context.set_offline(True)
    tabs = [nia, nia.context.new_page(), nia.context.new_page()]
    nia.context.set_offline(False)
    for tab in tabs[1:]:
        tab.goto("/learn")
    nia.context.set_offline(True)
    code = "await Promise.all(given.map((n) => box.keep('practice-answer', {typed: String(n)})))"
    for tab in tabs:
        with_outbox(tab, code, [1, 2, 3, 4])
    kept = waiting(nia)
    assert [item["sequence"] for item in kept] == list(range(1, 13))
    assert len({item["device"] for item in kept}) == 1


@pytest.mark.parametrize("status", [500, 502, 503])
def test_a_server_in_trouble_gets_it_later(nia, server, status):
    def trouble(route: Route) -> None:
        route.fulfill(status=status, content_type="text/html", body="<h1>trouble</h1>")

    nia.route("**/outbox", trouble)
    keep_step(nia, "eyes")
    nia.wait_for_timeout(300)
    assert [item["problem"] for item in waiting(nia)] == [None]
    nia.unroute("**/outbox")
    assert with_outbox(nia, "return (await box.send()).state") == "empty"
    assert steps_on_server(server.app, "nia") == ["eyes"]


def test_an_answer_lost_after_the_server_had_it_is_no_second_record(nia, server):
    def taken_but_unanswered(route: Route) -> None:
        route.fetch()
        route.abort("connectionreset")

    nia.route("**/outbox", taken_but_unanswered)
    keep_step(nia, "eyes")
    nia.locator("#unsent a").first.wait_for(state="attached")
    wait_until(nia, lambda: steps_on_server(server.app, "nia") == ["eyes"], "it never arrived")
    assert len(waiting(nia)) == 1
    nia.unroute_all(behavior="ignoreErrors")
    with_outbox(nia, "return await box.send()")
    assert waiting(nia) == []
    assert receipts_on_server(server.app) == 1


def test_after_the_session_has_ended_it_waits_for_the_next_sign_in(nia, server, open_page):
    person = nia.evaluate("document.documentElement.dataset.person")
    with server.app.app_context(), writing() as connection:
        end_all_sessions(connection, person, system_clock())
    keep_step(nia, "eyes")
    expect(nia.locator("#unsent")).to_contain_text("sign in again")
    assert steps_on_server(server.app, "nia") == []
    nia.goto("/learn")
    nia.get_by_label("Sign-in name").fill("nia")
    nia.get_by_label("Password").fill("wall-before-noon")
    nia.get_by_role("button", name="Sign in").click()
    nia.wait_for_url("**/learn")
    wait_until_sent(nia)
    assert steps_on_server(server.app, "nia") == ["eyes"]


def test_what_the_server_refuses_needs_attention_with_its_sentence(nia, server):
    keep_step(nia, "no-such-step")
    keep_step(nia, "eyes")
    wait_until_sent(nia, left=1)
    assert steps_on_server(server.app, "nia") == ["eyes"]
    expect(nia.locator("#unsent")).to_have_text("1 needs your attention")
    nia.locator("#unsent a").click()
    wrong = nia.locator("#outbox-wrong li")
    expect(wrong).to_contain_text("The lesson has no such step.")
    wrong.get_by_role("button", name="Try again").click()
    expect(wrong).to_contain_text("The lesson has no such step.")
    wrong.get_by_role("button", name="Throw it away").click()
    nia.get_by_role("dialog").get_by_role("button", name="Keep it").click()
    assert len(waiting(nia)) == 1
    wrong.get_by_role("button", name="Throw it away").click()
    nia.get_by_role("dialog").get_by_role("button", name="Throw it away").click()
    wait_until_sent(nia)
    expect(nia.locator("main")).to_contain_text("Nothing waits here.")
    assert receipts_on_server(server.app) == 2  # the step, and the note that explains the gap


def test_signing_out_with_something_waiting_asks_first(nia):
    nia.route("**/outbox", lambda route: route.abort())
    keep_step(nia, "eyes")
    nia.get_by_role("button", name="Sign out").click()
    dialog = nia.get_by_role("dialog")
    expect(dialog).to_contain_text("Not sent yet: 1.")
    dialog.get_by_role("button", name="Stay signed in").click()
    assert "/sign-in" not in nia.url
    nia.get_by_role("button", name="Sign out").click()
    nia.get_by_role("dialog").get_by_role("button", name="Sign out").click()
    nia.wait_for_url("**/sign-in")
    assert len(with_everything(nia)) == 1


def with_everything(page: Page) -> list[str]:
    """The texts in the phone's database, also on a page of nobody."""
    return page.evaluate(
        """async () => {
          const main = document.querySelector('script[src$="/phone.js"]').src;
          const items = await import(new URL("outbox/items.js", main));
          return (await items.waiting(null)).map((item) => item.text);
        }"""
    )


def test_a_file_brought_in_at_the_office_and_the_phone_itself_count_once(
    nia, server, open_page, tmp_path
):
    nia.context.set_offline(True)
    for step in STEPS:
        keep_step(nia, step)
    # Closed first: the phone sends by itself as soon as there is signal.
    nia.route("**/outbox", lambda r: r.abort() if r.request.method == "POST" else r.continue_())
    nia.context.set_offline(False)
    nia.goto("/outbox")
    with nia.expect_download() as download:
        nia.get_by_role("button", name="Save as a file").click()
    saved = tmp_path / "not-sent.json"
    download.value.save_as(saved)
    olga = open_page("olga", PHONE)
    olga.goto("/outbox/import")
    olga.get_by_label("The file").set_input_files(saved)
    olga.get_by_role("button", name="Bring it in").click()
    expect(olga.locator(".papers li")).to_have_count(3)
    expect(olga.locator(".papers li").first).to_contain_text("Nia Fable")
    assert sorted(steps_on_server(server.app, "nia")) == sorted(STEPS)
    nia.unroute("**/outbox")
    nia.get_by_role("button", name="Send now").click()
    wait_until_sent(nia)
    assert receipts_on_server(server.app) == 3


def test_a_new_form_of_the_phones_database_keeps_a_full_outbox(nia):
    nia.context.set_offline(True)
    for step in STEPS:
        keep_step(nia, step)
    before = waiting(nia)
    after = nia.evaluate(
        """async () => {
          const main = document.querySelector('script[src$="/phone.js"]').src;
          const { NAME, STEPS, openDatabase } = await import(new URL("outbox/database.js", main));
          const next = [...STEPS, (db) => db.createObjectStore("later", { keyPath: "id" })];
          const db = await openDatabase(NAME, next);
          const stores = [...db.objectStoreNames];
          const items = await new Promise((resolve) => {
            const request = db.transaction("items").objectStore("items").getAll();
            request.onsuccess = () => resolve(request.result);
          });
          return { version: db.version, stores, items };
        }"""
    )
    assert after["version"] == 2
    assert "later" in after["stores"]
    by_number = sorted(after["items"], key=lambda item: item["sequence"])
    assert by_number == before
