"""The page at the wall under a gloved thumb: a bar leads on, clock and port set themselves."""

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import PHONE
from tests.browser.test_trainer_walk import open_job, start_watching
from tests.browser.wall import at_the_wall, note_everything


@pytest.fixture
def page(open_page) -> Page:
    """A trainer at the wall with a pump operator's repair."""
    page = open_page("tomas", PHONE)
    open_job(page)
    at_the_wall(page, start_watching(page, "Leo Epigram", "Pump operator").rsplit("/", 1)[1])
    return page


def test_the_bar_counts_and_leads_from_open_step_to_open_step(page: Page):
    cards = page.locator("[data-item]")
    total = cards.count()
    expect(page.locator("#bar-noted")).to_have_text(f"0 of {total}")
    expect(page.locator("#bar-next")).to_be_in_viewport()
    onwards = page.get_by_role("link", name="Next open step")
    onwards.click()
    expect(cards.nth(0).get_by_role("heading")).to_be_focused()
    cards.nth(0).get_by_label("Done", exact=True).check()
    cards.nth(1).get_by_label("Not seen", exact=True).check()
    expect(page.locator("#bar-noted")).to_have_text(f"2 of {total}")
    expect(cards.nth(0)).to_have_class(re.compile("is-noted"))
    onwards.click()
    expect(cards.nth(2).get_by_role("heading")).to_be_focused()


def test_with_nothing_open_the_bar_leads_to_the_signature(page: Page):
    note_everything(page)
    page.get_by_role("link", name="Review and sign", exact=True).click()
    expect(page.locator("#review-title")).to_be_focused()
    expect(page.locator("#wall-sign")).to_be_visible()


def test_the_time_is_one_press_and_the_port_is_the_planned_one(page: Page):
    port = page.locator("#port-form").get_by_label("Port", exact=True)
    for planned in ("1", "2"):
        expect(port).to_have_value(planned)
        page.get_by_role("button", name="Opened at: Now").click()
        expect(page.get_by_label("Opened at", exact=True)).to_have_value(re.compile(r"^\d\d:\d\d$"))
        page.get_by_role("button", name="Save the line").click()
    expect(page.locator("#port-lines li")).to_have_count(2)
    port.fill("9")
    page.locator("#resin-temperature").fill("68 F")
    page.get_by_role("button", name="A met B now").click()
    expect(page.locator("#bar-clock")).to_have_text(re.compile(r"^Pot life 3\d:\d\d$"))
    expect(port).to_have_value("9")


def test_from_the_wall_the_list_of_what_waits_opens_without_signal(page: Page):
    expect(page.locator("#wall-kept")).to_contain_text("This repair is on this phone")
    page.context.set_offline(True)
    page.goto("/outbox")
    expect(page.get_by_role("heading", level=1)).to_have_text("Not sent yet")


def test_at_the_signature_the_bar_steps_aside(page: Page):
    note_everything(page)
    page.locator("#bar-next").click()
    page.get_by_role("button", name="Sign.").scroll_into_view_if_needed()
    expect(page.locator("#bar-next")).not_to_be_visible()
    page.locator("[data-item]").first.scroll_into_view_if_needed()
    expect(page.locator("#bar-next")).to_be_visible()
