"""A practice set without signal: marked on the phone, and on the server once when it is back."""

import pytest
from playwright.sync_api import Page, expect

from app.accounts.people import all_people
from app.database import reading
from app.workbook.practice_answers import practice_answers_of
from tests.browser.conftest import PHONE
from tests.browser.own_arithmetic import right_options, typed_answer
from tests.browser.phones import follow, wait_until, wait_until_sent, waiting
from tests.browser.test_offline_lessons import keep_modules

MODULE = "ratio-sample"


@pytest.fixture
def nia(open_page) -> Page:
    page = open_page("nia", PHONE)
    page.set_default_timeout(40_000)
    page.goto("/learn")
    keep_modules(page)
    page.context.set_offline(True)
    page.goto(f"/learn/{MODULE}")
    follow(page, page.get_by_role("link", name="Practise"))
    return page


def kept(server) -> list:
    with server.app.app_context(), reading() as connection:
        (nia,) = [p for p in all_people(connection) if p.sign_in_name == "nia"]
        return practice_answers_of(connection, nia.id, MODULE)


def answer_rightly(card) -> None:
    """Answer one card by the test's own arithmetic and by the content's right options."""
    question = " ".join(card.locator(".asked").inner_text().split())
    options = right_options(MODULE)
    if question in options:
        card.get_by_label(options[question], exact=True).check()
    else:
        card.get_by_label("Your answer").fill(typed_answer(question))
    card.get_by_role("button", name="Check it").click()


def test_a_set_is_marked_without_signal_and_arrives_once(nia, server):
    cards = nia.locator(".practice-question")
    expect(cards).to_have_count(6)
    for index in range(6):
        answer_rightly(cards.nth(index))
        expect(cards.nth(index).locator(".verdict")).to_contain_text("Right")
        expect(cards.nth(index).locator(".worked")).to_contain_text(" ")
    wait_until(nia, lambda: len(waiting(nia)) == 6, "not every answer waits on the phone")
    assert kept(server) == []
    nia.context.set_offline(False)
    wait_until_sent(nia)
    assert [answer.is_right for answer in kept(server)] == [True] * 6


def test_a_wrong_answer_gets_its_feedback_and_may_be_tried_again(nia):
    card = nia.locator(".practice-question").filter(has=nia.get_by_label("Your answer")).first
    card.get_by_label("Your answer").fill("1,5")
    card.get_by_role("button", name="Check it").click()
    expect(card.locator(".error")).to_contain_text("What does the comma")
    card.get_by_label("Your answer").fill("12345")
    card.get_by_role("button", name="Check it").click()
    expect(card.locator(".error")).to_be_hidden()
    expect(card.locator(".verdict")).to_contain_text("Not yet")
    card.locator("summary").click()
    expect(card.locator(".worked")).to_be_visible()
    answer_rightly(card)
    expect(card.locator(".verdict")).to_contain_text("Right")


def test_the_next_round_has_other_numbers_without_signal(nia):
    words = nia.locator("#practice-round").inner_text()
    seen = {words}
    for _ in range(2):
        nia.get_by_role("link", name="Again with new numbers").click()
        seen.add(nia.locator("#practice-round").inner_text())
    assert len(seen) == 3
    answer_rightly(nia.locator(".practice-question").first)
    expect(nia.locator(".verdict").first).to_contain_text("Right")
    nia.get_by_role("link", name="Again with new numbers").click()
    assert nia.locator("#practice-round").inner_text() == words


def test_data_in_the_page_is_data_and_no_script(open_page):
    page = open_page("nia", PHONE)
    violations = []
    page.on("console", lambda m: violations.append(m.text) if "Security" in m.text else None)
    page.goto(f"/learn/{MODULE}/practice")
    answer_rightly(page.locator(".practice-question").first)
    expect(page.locator(".verdict").first).to_contain_text("Right")
    assert violations == []
