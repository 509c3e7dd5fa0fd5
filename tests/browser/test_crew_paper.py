"""The sheet of the crew check is one page, the largest crew on it; the page fits a phone."""

import re
from collections.abc import Callable

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from app.database import reading
from app.workbook.jobs import all_jobs
from tests.browser.conftest import DESK, PHONE, LiveServer

RULES = ["wcag2a", "wcag2aa", "wcag21aa", "wcag22aa"]


@pytest.fixture
def wall(server: LiveServer) -> str:
    """The job with the longest title."""
    with server.app.app_context(), reading() as connection:
        longest = max(all_jobs(connection), key=lambda job: len(job.title))
    return longest.id


def check(page: Page, path: str, *names: str) -> None:
    """Tick these people and ask."""
    page.goto(path)
    for name in names:
        page.get_by_label(name).check()
    page.get_by_role("button", name=re.compile("Check this crew|Revisar")).click()
    expect(page.locator(".crew-answer")).to_be_visible()


# Who has most to say about why not, and one who may: eight is the most that may be ticked.
EIGHT = ("Jon", "Nia", "Dov", "Elsa", "Fynn", "Gita", "Ida", "Leo")


@pytest.mark.parametrize("paper", ["Letter", "A4"])
@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("hands", ["one-pump", "overhead"])  # two columns of hands, and three
def test_the_largest_crew_fits_one_page(
    open_page: Callable[..., Page], wall: str, paper: str, language: str, hands: str
):
    page = open_page("olga", DESK)
    if language == "es":
        page.get_by_role("button", name="Español").click()
        expect(page.locator("html")).to_have_attribute("lang", "es")
    check(page, f"/crews/{wall}?hands={hands}", *EIGHT)
    # Each page of a PDF is an object of the type Page.
    assert len(re.findall(rb"/Type\s*/Page\b(?!s)", page.pdf(format=paper))) == 1


def test_on_paper_are_lines_to_sign_on_and_no_form(open_page: Callable[..., Page], wall: str):
    page = open_page("tomas", DESK)
    check(page, f"/jobs/{wall}/crew", "Jon", "Cora")
    assert not page.locator(".sign-lines").is_visible()
    page.emulate_media(media="print")
    assert page.locator(".sign-lines dd").count() == 6
    assert page.locator(".sign-lines").is_visible()
    assert not page.locator(".crew form").first.is_visible()
    assert page.locator(".decides").is_visible()


def test_a_phone_shows_it_without_scrolling_sideways(open_page: Callable[..., Page], wall: str):
    page = open_page("tomas", {"width": 320, "height": 700})
    check(page, f"/jobs/{wall}/crew?hands=overhead", *EIGHT)
    assert page.evaluate("document.documentElement.scrollWidth") <= 320


@pytest.mark.parametrize("dark", [False, True])
def test_it_can_be_read_by_everybody(open_page: Callable[..., Page], wall: str, dark: bool):
    page = open_page("tomas", PHONE)
    page.emulate_media(color_scheme="dark" if dark else "light")
    check(page, f"/jobs/{wall}/crew", "Jon", "Elsa", "Nia")
    found = Axe().run(page, options={"runOnly": RULES})
    assert found.violations_count == 0, found.generate_report()
