"""A new hire on a phone: from sign-in through a module to its passed quiz."""

import math
import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import PHONE
from tests.browser.own_arithmetic import right_options, typed_answer
from tests.browser.phones import follow


def work_through(page: Page) -> int:
    """Press the big button on each card until the module's own page is back."""
    cards = 0
    while page.locator("article.step").count():
        for part in ("Do", "Check", "Stop if", "Why"):
            expect(page.get_by_role("heading", name=part, exact=True)).to_be_visible()
        with page.expect_navigation():
            page.get_by_role("button", name="Done.").click()
        cards += 1
        assert cards < 20
    return cards


def answer(page: Page, module: str) -> None:
    """Answer the question on the page rightly, and move on."""
    question = " ".join(page.locator("h2.asked").inner_text().split())
    options = right_options(module)
    if question in options:
        page.get_by_label(options[question], exact=True).check()
    else:
        page.get_by_label("answer").fill(typed_answer(question))
        page.get_by_role("button", name="Read it back").click()
        expect(page.get_by_text("We read:")).to_be_visible()
    follow(page, page.get_by_role("button", name="Mark it"))


@pytest.mark.parametrize("module", ["safety-gear", "ratio-sample"])
def test_a_new_hire_learns_a_module_and_passes_its_quiz(open_page, module: str):
    page = open_page("nia", PHONE)
    expect(page.get_by_role("heading", level=1)).to_have_text("Learn")
    expect(page.get_by_text("Next:")).to_contain_text("Safety gear")
    page.goto(f"/learn/{module}")
    follow(page, page.get_by_role("link", name="Start with step 1"))
    assert 6 <= work_through(page) <= 12
    follow(page, page.get_by_role("button", name="Take the quiz"))
    asked = 0
    while page.locator("h2.asked").count():
        answer(page, module)
        expect(page.locator(".verdict").first).to_contain_text("Right")
        onwards = page.get_by_role("link", name="Next question")
        follow(page, onwards.or_(page.get_by_role("link", name="See the result")))
        asked += 1
        assert asked < 30
    assert asked >= 8
    expect(page.locator(".verdict").first).to_contain_text("Passed")
    page.goto("/learn")
    expect(page.locator("main")).to_contain_text("1 of 4 modules passed")


def test_a_wrong_answer_is_explained_and_stands(open_page):
    page = open_page("nia", PHONE)
    page.goto("/learn/ratio-sample")
    follow(page, page.get_by_role("link", name="Start with step 1"))
    work_through(page)
    follow(page, page.get_by_role("button", name="Take the quiz"))
    question = go_to_a_sum(page, "ratio-sample")
    right, *unit = typed_answer(question).split()
    page.get_by_label("answer").fill("1,5 ml")
    page.get_by_role("button", name="Read it back").click()
    expect(page.locator(".error")).to_be_visible()
    expect(page.get_by_label("answer")).to_have_value("1,5 ml")
    page.get_by_label("answer").fill(" ".join([f"{float(right) * 7:g}", *unit]))
    page.get_by_role("button", name="Read it back").click()
    follow(page, page.get_by_role("button", name="Mark it"))
    expect(page.locator(".verdict").first).to_contain_text("Wrong")
    shown = re.findall(r"\d+(?:\.\d+)?", page.locator("main").inner_text())
    assert any(math.isclose(float(n), float(right), rel_tol=0.01) for n in shown), shown
    marked = page.url
    page.go_back()
    page.goto(marked)
    expect(page.locator(".verdict").first).to_contain_text("Wrong")


def go_to_a_sum(page: Page, module: str) -> str:
    """Answer choice questions until one asks for a sum; return its words."""
    for _ in range(12):
        question = " ".join(page.locator("h2.asked").inner_text().split())
        if question not in right_options(module):
            return question
        answer(page, module)
        follow(page, page.get_by_role("link", name="Next question"))
    raise AssertionError("no question of this attempt asks for a sum")
