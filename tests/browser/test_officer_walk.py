"""A safety officer at a desk: reads why, decides, and sees the board on any day."""

import re
from datetime import date, timedelta

from playwright.sync_api import Page, expect

from app.demo.crew import DEMO_PASSWORD
from tests.browser.conftest import DESK
from tests.browser.phones import follow


def cell(page: Page, person: str, column: int) -> str:
    row = page.get_by_role("row").filter(has_text=person)
    return row.get_by_role("cell").nth(column).inner_text()


def open_person(page: Page, name: str) -> None:
    page.goto("/people")
    follow(page, page.get_by_role("link", name=name).first)
    expect(page.get_by_role("heading", level=1)).to_contain_text(name)


def decide(page: Page, what: str, reason: str, password: str = DEMO_PASSWORD) -> None:
    follow(page, page.get_by_role("link", name=re.compile(what)).first)
    page.get_by_label("Reason").fill(reason)
    page.get_by_label("Password").fill(password)
    follow(page, page.get_by_role("button", name=re.compile("^Sign:")))


def test_a_suspension_and_its_lift_change_the_board(open_page):
    page = open_page("olga", DESK)
    assert "Current" in cell(page, "Ben Parable", 0)
    open_person(page, "Ben Parable")
    decide(page, "^Suspend", "Lid off the solvent in the pump pit.", password="wrong password")
    expect(page.locator(".error").first).to_be_visible()
    expect(page.get_by_label("Reason")).to_have_value("Lid off the solvent in the pump pit.")
    page.get_by_label("Password").fill(DEMO_PASSWORD)
    follow(page, page.get_by_role("button", name=re.compile("^Sign:")))
    expect(page.locator("main")).to_contain_text("Lid off the solvent")
    page.goto("/board")
    assert "Suspended" in cell(page, "Ben Parable", 0)
    yesterday = date.today() - timedelta(days=2)
    page.goto(f"/board?as_of={yesterday.isoformat()}")
    assert "Current" in cell(page, "Ben Parable", 0)
    open_person(page, "Ben Parable")
    decide(page, "^Lift", "Watched again, all right.")
    page.goto("/board")
    assert "Current" in cell(page, "Ben Parable", 0)


def test_a_grant_without_evidence_says_what_is_missing(open_page):
    page = open_page("olga", DESK)
    open_person(page, "Hugo Myth")
    expect(page.locator("main")).to_contain_text("1 of 2 supervised repairs count")
    decide(page, "^Grant", "He seems able.")
    expect(page.locator("main")).to_contain_text("1 of 2 supervised repairs count")
    page.goto("/board")
    assert "Not qualified" in cell(page, "Hugo Myth", 0)


def test_the_last_good_day_is_two_years_from_the_grant(open_page):
    """Cora: granted 719 days ago, 24 months; counted here with the calendar, by hand."""
    page = open_page("olga", DESK)
    granted = date.today() - timedelta(days=719)
    same_day_two_years_on = (
        granted.replace(year=granted.year + 2)
        if (granted.month, granted.day) != (2, 29)
        else date(granted.year + 2, 2, 28)
    )
    open_person(page, "Cora Legend")
    said = f"{same_day_two_years_on.day} {same_day_two_years_on:%b %Y}"
    expect(page.locator("main")).to_contain_text(said)


def test_the_board_as_a_file_names_its_day(open_page):
    page = open_page("olga", DESK)
    with page.expect_download() as download:
        page.get_by_role("link", name=re.compile("CSV")).click()
    text = download.value.path().read_text(encoding="utf-8-sig")
    assert date.today().isoformat() in text
    assert re.search(r"Gita Proverb.*expired", text, re.IGNORECASE)
