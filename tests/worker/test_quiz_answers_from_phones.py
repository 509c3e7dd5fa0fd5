"""An answer given while signal was gone is marked by the server when it arrives, once."""

import pytest
from flask.testing import FlaskClient

from app.records.events import Quiz
from tests.web.phone import Phone, send_all

QUIZ = ("target-b", "eye-level")


def answer(phone: Phone, url: str, position: int, typed: str) -> str:
    payload = {"attempt": url.rsplit("/", 1)[-1], "position": position, "typed": typed}
    return phone.item("quiz-answer", payload)


@pytest.fixture
def phone(ola_id) -> Phone:
    return Phone(ola_id)


def test_answers_are_marked_and_the_last_one_makes_the_record(
    ola: FlaskClient, phone, quiz_of, kept_answers, records
):
    url = quiz_of("ratio-sample", *QUIZ)
    items = [answer(phone, url, 1, "1 ml"), answer(phone, url, 2, "no-such-option")]
    outcomes = send_all(ola, *items)
    assert [one["status"] for one in outcomes] == [201, 422]
    assert not kept_answers(url)[1].is_right
    assert [e for e in records() if isinstance(e, Quiz)] == []
    right = next(o["id"] for o in options("ratio-sample", "eye-level") if o.get("right"))
    (outcome,) = send_all(ola, answer(phone, url, 2, right))
    assert outcome["receipt"]["result"] == {"was_answered": False}
    (quiz,) = [e for e in records() if isinstance(e, Quiz)]
    assert (quiz.right, quiz.asked) == (1, 2)


def options(module: str, item: str) -> list[dict]:
    from quiz_taker import questions_of

    return questions_of(module)[item]["options"]


def test_the_first_answer_stands_whichever_way_it_came(
    ola: FlaskClient, phone, quiz_of, kept_answers
):
    url = quiz_of("ratio-sample", *QUIZ)
    ola.post(f"{url}/1", data={"answer": "1 ml", "act": "mark"})
    (outcome,) = send_all(ola, answer(phone, url, 1, "2 ml"))
    assert outcome["receipt"]["result"] == {"was_answered": True}
    assert kept_answers(url)[1].typed == "1 ml"


def test_what_cannot_be_read_comes_back_with_its_question(ola: FlaskClient, phone, quiz_of):
    (outcome,) = send_all(ola, answer(phone, quiz_of("ratio-sample", *QUIZ), 1, "1,5 ml"))
    assert outcome["status"] == 422
    assert "What does the comma" in outcome["problem"]["detail"]


def test_a_question_of_somebody_elses_quiz_is_none(ola: FlaskClient, cast, quiz_of, phone):
    other = cast.add("ben.worker", "worker")
    url = quiz_of("ratio-sample", *QUIZ, person=other)
    (outcome,) = send_all(ola, answer(phone, url, 1, "1 ml"))
    assert (outcome["status"], outcome["problem"]["code"]) == (422, "unknown-question")


def test_changed_questions_are_told(ola: FlaskClient, phone, quiz_of):
    url = quiz_of("ratio-sample", *QUIZ, version=99)
    (outcome,) = send_all(ola, answer(phone, url, 1, "1 ml"))
    assert outcome["problem"]["code"] == "questions-changed"
