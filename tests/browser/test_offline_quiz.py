"""Signal drops in the middle of a quiz that counts: the answer waits and the server marks it."""

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import PHONE
from tests.browser.own_arithmetic import right_options, typed_answer
from tests.browser.phones import follow, waiting
from tests.browser.test_offline_lessons import go_through

MODULE = "ratio-sample"  # 8 of its 10 questions are asked, and 4 of them are sums


@pytest.fixture
def quiz(open_page) -> Page:
    page = open_page("nia", PHONE)
    page.set_default_timeout(40_000)
    page.goto(f"/learn/{MODULE}/steps/1")
    go_through(page)
    follow(page, page.get_by_role("button", name="Take the quiz"))
    expect(page.locator("h2.asked")).to_be_visible()
    return page


def question_of(page: Page) -> str:
    return " ".join(page.locator("h2.asked").inner_text().split())


def answer_here(page: Page) -> None:
    question = question_of(page)
    options = right_options(MODULE)
    if question in options:
        page.get_by_label(options[question], exact=True).check()
    else:
        page.get_by_label("answer").fill("1,5")
        page.get_by_role("button", name="Read it back").click()
        expect(page.locator(".error span").last).to_contain_text("What does the comma")
        page.get_by_label("answer").fill(typed_answer(question))
        page.get_by_role("button", name="Read it back").click()
        expect(page.locator(".read-back-said")).to_be_visible()
        page.get_by_role("button", name="Change it").click()
        page.get_by_role("button", name="Read it back").click()
    page.get_by_role("button", name="Mark it").click()


def test_every_answer_given_without_signal_is_marked_when_it_is_back(quiz):
    kinds = set()
    for _ in range(12):
        kinds.add(question_of(quiz) in right_options(MODULE))
        quiz.context.set_offline(True)
        answer_here(quiz)
        expect(quiz.locator("#quiz-part")).to_contain_text("on this phone and not sent yet")
        assert [item["kind"] for item in waiting(quiz)] == ["quiz-answer"]
        quiz.context.set_offline(False)
        expect(quiz.locator(".verdict").first).to_contain_text("Right")
        following = quiz.get_by_role("link", name="Next question").or_(
            quiz.get_by_role("link", name="See the result")
        )
        follow(quiz, following)
        if not quiz.locator("h2.asked").count():
            break
    expect(quiz.locator(".verdict").first).to_contain_text("Passed")
    assert kinds == {True, False}
