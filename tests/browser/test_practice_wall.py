"""A trainee at the practice wall on a phone: plays by what is shown, then sees behind the wall."""

import re

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from app.database import reading
from app.trade.fill import run as fill
from app.trade.showing import show
from app.workbook.practice_runs import run_by_id
from app.worker.practice.papers import papers_from
from app.worker.practice.setup import crack_from
from tests.browser.conftest import DESK, PHONE

PATIENCE_MS = 30_000
SMALLEST_TARGET = 44  # WCAG 2.2, 2.5.5 Target Size (Enhanced), CSS pixels


def go_to_the_wall(page: Page, name: str) -> None:
    page.goto(f"/practice-crack/{name}")
    page.get_by_role("button", name="the wall").click()
    expect(page.locator("#at-wall")).to_be_visible()


def open_the_wall(page: Page) -> None:
    """Done: the same crack is worked out by the book now, which takes a busy machine a while."""
    page.get_by_role("button", name="I am done. Open the wall").click(timeout=PATIENCE_MS)
    behind = page.get_by_role("heading", name="Behind the wall")
    expect(behind).to_be_visible(timeout=PATIENCE_MS)


def press(page: Page, button: str, port: int | None = None) -> None:
    """Choose a port by tapping its button, press, and wait until the clock has run."""
    if port is not None:
        page.locator(".port-pick", has=page.locator(f'input[value="{port}"]')).click()
    number = page.locator('input[name="number"]').input_value()
    page.get_by_role("button", name=button, exact=True).click()
    expect(page.locator('input[name="number"]')).not_to_have_value(number, timeout=PATIENCE_MS)


def pump_until(page: Page, words: str) -> None:
    press(page, "Open and pump")
    for _ in range(30):
        if words in page.locator("#said").inner_text():
            return
        press(page, "Watch 1 min")
    raise AssertionError(f"the page never said: {words}")


def test_the_plain_crack_is_filled_by_what_the_page_shows_and_its_numbers_replay(open_page, server):
    page = open_page("nia", PHONE)
    page.goto("/learn")
    page.get_by_role("link", name="Practice crack: 0 of 12 done").click()
    page.get_by_role("link", name="1. A plain crack up a wall").click()
    page.get_by_role("button", name="Go to the wall").click()
    address = page.url
    ports = page.locator(".port-pick").count()
    press(page, "Move to this port", 1)
    for port in range(2, ports + 1):
        pump_until(page, f"Resin shows at port {port}.")
        press(page, "Close valve")
        press(page, "Cap this port", port - 1)
        press(page, "Move to this port", port)
    pump_until(page, "Hardly anything goes in any more.")
    expect(page.locator("main")).not_to_contain_text("filled")
    assert page.url == address  # with a script nothing was loaded anew
    open_the_wall(page)
    expect(page.locator(".verdict")).to_contain_text("As full as by the book")
    again = replayed(server, address)
    rows = page.locator("table.numbers").first.locator("tbody tr").all_inner_texts()
    shown = {cells[0]: cells[1:] for cells in (re.split(r"\t+", row) for row in rows)}
    filled = float(shown["Filled"][0].removesuffix(" %"))
    assert filled == pytest.approx(again.behind.filled_share * 100, abs=0.5)
    assert shown["Resin used"][0] == show(round(again.behind.used_m3 * 1e6, 3), "volume", "us")
    assert (
        shown["Time"][0] == f"{round(again.seen.time_s) // 60}:{round(again.seen.time_s) % 60:02}"
    )
    page.goto("/practice-crack")
    expect(page.locator("main")).to_contain_text("1 of 12 cracks done")


def replayed(server, address: str):
    """The same run worked out again from the crack and the decisions that were kept."""
    run_id = address.split("/runs/")[1].split("?")[0].split("#")[0]
    with server.app.app_context(), reading() as connection:
        run = run_by_id(connection, run_id)
    return fill(crack_from(run.setup), papers_from(run.acts).decisions)


def test_a_tap_on_a_ring_chooses_its_port_and_the_replay_runs(open_page):
    page = open_page("nia", PHONE)
    go_to_the_wall(page, "deep-with-close-ports")
    page.locator('[data-port="3"] .wall-bore').click()
    expect(page.locator('input[name="port"][value="3"]')).to_be_checked()
    press(page, "Move to this port")
    press(page, "Open and pump")
    expect(page.locator('[data-port="3"]')).to_have_class(re.compile("is-hose-open"))
    open_the_wall(page)
    expect(page.locator("#replay-bar")).to_be_visible()
    expect(page.locator("#stills")).to_be_hidden()
    slider = page.get_by_label("Time")
    slider.fill("0")
    bare = painted(page)
    slider.fill("999")
    wet = painted(page)
    assert bare != wet
    slider.fill("0")
    page.get_by_role("button", name="Play").click()
    expect(page.get_by_role("button", name="Stop")).to_be_visible()
    page.get_by_role("button", name="Stop").click()
    slider.fill("1000")
    expect(page.locator(".opened-side canvas").first).to_be_hidden()


def painted(page: Page) -> str:
    return page.locator(".opened-side canvas").first.evaluate("canvas => canvas.toDataURL()")


def test_a_refused_act_is_told_and_the_same_page_goes_on(open_page):
    page = open_page("nia", PHONE)
    go_to_the_wall(page, "horizontal")
    page.get_by_role("button", name="Open and pump").click()
    expect(page.locator("#said")).to_contain_text("The hose is on no port.")
    press(page, "Move to this port", 1)
    expect(page.locator("#said")).to_contain_text("The hose is on port 1.")


@pytest.mark.parametrize("viewport", [PHONE, DESK], ids=["phone", "desk"])
@pytest.mark.parametrize("theme", ["Daylight", "Basement"])
def test_wall_and_opened_wall_suit_everybody(open_page, viewport, theme: str):
    page = open_page("nia", viewport)
    page.get_by_role("button", name=theme).click()
    go_to_the_wall(page, "branch-with-island")
    press(page, "Move to this port", 1)
    press(page, "Open and pump")
    look(page, viewport)
    for target in page.locator(".port-pick, .wall-form .button, .open-form .button").all():
        box = target.bounding_box()
        assert min(box["width"], box["height"]) >= SMALLEST_TARGET, target.inner_text()
    open_the_wall(page)
    expect(page.locator("#replay-bar")).to_be_visible()
    look(page, viewport)


def look(page: Page, viewport: dict[str, int]) -> None:
    """No rule of axe is broken, and nothing has to be scrolled sideways."""
    found = Axe().run(page, options={"runOnly": ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]})
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth") <= viewport["width"]
