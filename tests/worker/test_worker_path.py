"""A new hire's whole path through the pages: sign in, learn, take the quiz, pass it."""

import re

from purge_arithmetic import typed_answer
from quiz_taker import Page, do_all_steps, opened, right_option, sent

MODULE = "pump-purge"


def take_quiz(client, first: Page) -> tuple[Page, list[str]]:
    """Answer every question right; returns the result and what was asked."""
    page, asked = first, []
    while re.fullmatch(r"/quiz/[^/]+/\d+", page.path):
        asked.append(page.asked)
        address = page.path
        if page.options:
            option = page.options[right_option(MODULE, page.asked)]
            page = sent(client, address, option=option)
        else:
            typed = typed_answer(page.asked)
            page = sent(client, address, answer=typed, act="read")
            assert "We read:" in page.words
            page = sent(client, address, answer=typed, act="mark")
        assert "You answered:" in page.words, page.words
        assert "Wrong" not in page.words, page.words
        following = re.search(r'class="button step-on" href="([^"]+)"', page.html)
        assert following, page.words
        page = opened(client, following.group(1))
    return page, asked


def test_from_sign_in_to_a_passed_quiz(ola, records):
    assert "Next: Safety gear" in opened(ola, "/").words

    page = do_all_steps(ola, MODULE)
    assert "You have done every step." in page.words
    (training,) = records()
    assert (training.kind, training.module, training.revision) == ("training", MODULE, 1)

    quiz = sent(ola, f"/learn/{MODULE}/quiz")
    result, asked = take_quiz(ola, quiz)
    assert len(asked) == 8
    assert "Passed 8 of 8 right. You need 7." in result.words

    _, passed = records()
    assert (passed.kind, passed.passed, passed.right, passed.asked) == ("quiz", True, 8, 8)
    assert passed.id == passed.attempt == result.path.split("/")[2]
    assert "Passed on 2 Mar 2026" in opened(ola, f"/learn/{MODULE}").words


def test_a_finished_quiz_shows_the_same_numbers_again(ola):
    do_all_steps(ola, MODULE)
    result, asked = take_quiz(ola, sent(ola, f"/learn/{MODULE}/quiz"))
    for position, text in enumerate(asked, start=1):
        assert opened(ola, f"{result.path}/{position}").asked == text
    again = opened(ola, result.path)
    for text in asked:
        assert text in again.words


def test_another_try_brings_new_numbers(ola):
    do_all_steps(ola, MODULE)
    paths, numbers = set(), set()
    for _ in range(3):  # two tries may draw the same numbers once in some thousand times
        result, asked = take_quiz(ola, sent(ola, f"/learn/{MODULE}/quiz"))
        computed = tuple(sorted(text for text in asked if re.search(r"\d (ft|m|psi)\b", text)))
        assert len(computed) >= 2
        paths.add(result.path)
        numbers.add(computed)
    assert len(paths) == 3
    assert len(numbers) > 1


def test_every_must_know_question_is_always_asked(ola):
    do_all_steps(ola, MODULE)
    for _ in range(3):
        _, asked = take_quiz(ola, sent(ola, f"/learn/{MODULE}/quiz"))
        assert sum("fitting begins to weep" in text for text in asked) == 1
        assert sum("half a pail of purged A" in text for text in asked) == 1
