"""A trainer prints a job card on two pages, and reads it on a phone without scrolling sideways."""

import re
from collections.abc import Callable

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from app.database import writing
from app.web.now import system_clock
from app.workbook.card_plans import keep_card_plan
from app.workbook.jobs import all_jobs
from tests.browser.conftest import DESK, PHONE, LiveServer
from tests.trainer.card_reading import OPTIONS

RULES = ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]


@pytest.fixture
def cards(server: LiveServer) -> dict[str, str]:
    """The address of each job's card by the structure's name, every option typed."""
    with server.app.app_context(), writing() as connection:
        jobs = all_jobs(connection)
        for job in jobs:
            keep_card_plan(connection, job.id, OPTIONS, job.created_by, system_clock())
    return {job.structure: f"/jobs/{job.id}/card" for job in jobs}


@pytest.mark.parametrize("paper", ["Letter", "A4"])
@pytest.mark.parametrize("structure", ["North wall", "Slab edge", "Sump wall"])
def test_a_card_fits_two_pages(
    open_page: Callable[..., Page], cards: dict[str, str], paper: str, structure: str
):
    page = open_page("tomas", DESK)
    page.goto(next(path for name, path in cards.items() if name.startswith(structure)))
    # 37, 57 and 13 ports; each page of a PDF is an object of the type Page.
    assert len(re.findall(rb"/Type\s*/Page\b(?!s)", page.pdf(format=paper))) == 2


def test_the_log_on_paper_has_every_port(open_page: Callable[..., Page], cards: dict[str, str]):
    page = open_page("tomas", DESK)
    page.goto(next(path for name, path in cards.items() if name.startswith("North wall")))
    page.emulate_media(media="print")
    rows = page.locator(".port-log tbody th")
    assert rows.all_inner_texts() == [str(n) for n in range(1, 38)]
    assert not page.locator(".says-who").first.is_visible()
    assert page.locator(".paper-sources").is_visible()


@pytest.mark.parametrize("place", ["", "/options"])
def test_a_phone_shows_the_card_without_scrolling_sideways(
    open_page: Callable[..., Page], cards: dict[str, str], place: str
):
    page = open_page("tomas", PHONE)
    for path in list(cards.values())[:3]:
        page.goto(path + place)
        assert page.evaluate("document.documentElement.scrollWidth") <= PHONE["width"]


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_card_options_and_choice(
    open_page: Callable[..., Page], cards: dict[str, str], scheme: str
):
    page = open_page("tomas", PHONE)
    page.emulate_media(color_scheme=scheme)
    card = next(iter(cards.values()))
    asked = "movement=dormant&pattern=isolated&strength=yes&water=damp&member=plain"
    choice = f"/repair-choice?{asked}&width=5+mil&temperature=48+F"
    for path in (card, f"{card}/options", "/repair-choice", choice):
        page.goto(path)
        found = Axe().run(page, options={"runOnly": RULES})
        assert found.violations_count == 0, (path, found.generate_report())


def test_a_number_opens_its_source(open_page: Callable[..., Page], cards: dict[str, str]):
    page = open_page("tomas", PHONE)
    page.goto(next(iter(cards.values())))
    number = page.locator("a.fact[href='#src-resin-hold-up']").first
    assert not page.locator("#src-resin-hold-up").is_visible()
    number.click()
    assert page.locator("#src-resin-hold-up").is_visible()
