"""The result of a quiz: the count, the safety gate, who may open it, and what stays as it was."""

import pytest
from purge_arithmetic import typed_answer
from quiz_taker import Page, do_all_steps, opened, right_option, sent

from app.database import reading, writing
from app.records.ledger.door import all_events
from app.workbook.attempts import Answer, finish_attempt, keep_answer

MODULE = "pump-purge"
SAFETY = ("weeping-fitting", "waste-in-one-pail")
CHOICES = ("lever-position", "stream-spits", "why-tube-off", "thick-resin")
COMPUTED = ("hose-holds", "purge-both-hoses", "purge-minutes", "least-reading")


def answer(client, address: str, is_right: bool) -> Page:
    """Answer one question right or wrong."""
    page = opened(client, address)
    if not page.options:
        typed = typed_answer(page.asked) if is_right else "0.001"
        return sent(client, address, answer=typed, act="mark")
    right = page.options[right_option(MODULE, page.asked)]
    wrong = next(value for value in page.options.values() if value != right)
    return sent(client, address, option=right if is_right else wrong)


def result_of(client, quiz: str, rights: list[bool]) -> Page:
    for position, is_right in enumerate(rights, start=1):
        page = answer(client, f"{quiz}/{position}", is_right)
        assert ("Wrong" in page.words) is not is_right
    return opened(client, quiz)


# 80 % of 10 is 8, of 8 is 6.4: seven are needed.
@pytest.mark.parametrize(
    ("asked", "wrong", "is_passed"),
    [(8, 0, True), (8, 1, True), (8, 2, False), (10, 2, True), (10, 3, False)],
)
def test_four_in_five_must_be_right(ola, quiz_of, records, asked: int, wrong: int, is_passed):
    items = (SAFETY + COMPUTED + CHOICES)[:asked]
    rights = [place < asked - wrong for place in range(asked)]
    page = result_of(ola, quiz_of(MODULE, *items), rights)
    assert f"{asked - wrong} of {asked} right." in page.words
    assert ("Passed" in page.words) is is_passed
    assert ("Not yet" in page.words) is not is_passed
    (record,) = records()
    assert (record.passed, record.right, record.asked) == (is_passed, asked - wrong, asked)


def test_one_wrong_safety_question_is_enough(ola, quiz_of, records):
    items = (*SAFETY, *COMPUTED, *CHOICES[:2])
    page = result_of(ola, quiz_of(MODULE, *items), [False] + [True] * 7)
    assert "Not yet 7 of 8 right. You need 7. A safety question was wrong." in page.words
    assert "Wrong: a safety question" in page.words
    assert not records()[0].passed
    assert "Try again" in page.words


def test_every_wrong_answer_is_explained_with_the_solution(ola, quiz_of):
    page = result_of(ola, quiz_of(MODULE, *COMPUTED), [False] * 4)
    assert page.words.count("Worked out") == 4
    assert page.words.count("Right is:") == 8  # once explained, once in the list of all


def test_an_answer_without_a_sum_is_given_its_reason_not_a_working_out(ola, quiz_of):
    page = result_of(ola, quiz_of(MODULE, *CHOICES[:2]), [False, True])
    assert "Worked out" not in page.words
    assert "<h3>Why</h3>" in page.html
    # What was answered wrongly is not the words that stand out.
    assert "You answered: <strong>" not in page.html.split("All questions and answers")[0]


def test_the_last_answer_sent_twice_finishes_once(ola, quiz_of, records):
    quiz = quiz_of(MODULE, "lever-position")
    first = answer(ola, f"{quiz}/1", True)
    again = sent(ola, f"{quiz}/1", option="open")
    assert first.words == again.words
    assert [event.id for event in records()] == [quiz.split("/")[2]]


def test_nobody_else_opens_an_attempt(cast, ola, quiz_of):
    cast.add("pat.worker", "worker")
    cast.add("otto.officer", "safety-officer")
    quiz = quiz_of(MODULE, "lever-position", "stream-spits")
    answer(ola, f"{quiz}/1", True)
    pat, officer = cast.sign_in("pat.worker"), cast.sign_in("otto.officer")
    for address in (quiz, f"{quiz}/1", f"{quiz}/2"):
        assert pat.get(address).status_code == 404
        assert officer.get(address).status_code == 403
    assert pat.post(f"{quiz}/2", data={"option": "keep-on"}).status_code == 404
    assert pat.get("/quiz/no-such-quiz").status_code == 404
    assert pat.get("/quiz/no-such-quiz/1").status_code == 404


def test_wrong_methods_are_refused(ola, quiz_of):
    assert ola.post(quiz_of(MODULE, "lever-position")).status_code == 405
    assert ola.get(f"/learn/{MODULE}/quiz").status_code == 405


def test_a_question_changed_since_stops_an_open_quiz(ola, quiz_of):
    quiz = quiz_of(MODULE, "lever-position", version=99)
    for page in (opened(ola, f"{quiz}/1"), sent(ola, f"{quiz}/1", option="shut")):
        assert page.path == f"/learn/{MODULE}"
        assert "The questions were changed while this quiz was open." in page.words


def test_a_finished_quiz_outlives_its_questions(app, clock, ola, quiz_of):
    quiz = quiz_of(MODULE, "lever-position", version=99)
    attempt = quiz.split("/")[2]
    kept = Answer(1, "lever-position", 99, "12 in", "12 in = 304.8 mm", True, "")
    with app.app_context(), writing() as connection:
        keep_answer(connection, attempt, kept, clock())
        finish_attempt(connection, attempt, True, clock())
    page = opened(ola, quiz)
    assert "Passed 1 of 1 right." in page.words
    assert "12 in = 304.8 mm" in page.words
    assert "was changed since" in opened(ola, f"{quiz}/1").words


def test_the_language_of_the_questions_is_on_the_record(app, ola):
    sent(ola, "/show", language="es")
    do_all_steps(ola, MODULE)
    quiz = sent(ola, f"/learn/{MODULE}/quiz").path.rsplit("/", 1)[0]
    sent(ola, "/show", language="en")  # what was asked in Spanish was asked in Spanish
    for position in range(1, 9):
        answer(ola, f"{quiz}/{position}", False)
    with app.app_context(), reading() as connection:
        kept = {e.kind: e.language for e in all_events(connection)}
    assert kept == {"training": "es", "quiz": "es"}
