"""Practice questions work as plain pages too, count for nothing, and come back the same."""

import json
import re

import pytest
from flask import Flask
from flask.testing import FlaskClient

from app.curriculum.model import Curriculum
from app.curriculum.questions.items import ComputedQuestion
from app.database import reading
from app.trade.units import from_base
from app.workbook.practice_answers import practice_answers_of
from app.worker.question_sets import QUESTIONS, ROUNDS, question_set
from tests.web.phone import Phone, send_all

MODULE = "ratio-sample"
DAY = "2026-03-02"


@pytest.fixture
def kept(app: Flask, ola_id):
    def read() -> list:
        with app.app_context(), reading() as connection:
            return practice_answers_of(connection, ola_id, MODULE)

    return read


def right_answer(asked) -> str:
    if not isinstance(asked.question, ComputedQuestion):
        return asked.question.right_option().id
    value = from_base(asked.variant.key, asked.question.answer.unit)
    return f"{float(value):.6f}".rstrip("0").rstrip(".")


def post(client: FlaskClient, answers: dict[int, str], number: int = 1) -> str:
    data = {f"answer-{position}": typed for position, typed in answers.items()}
    answer = client.post(f"/learn/{MODULE}/practice", data={"round": number, **data})
    assert answer.status_code == 200
    return answer.get_data(as_text=True)


def test_a_set_is_the_same_all_day_and_another_one_next_round(curriculum: Curriculum, ola_id):
    module = curriculum.module(MODULE)
    first, again = (question_set(module, ola_id, DAY, 1) for _ in range(2))
    assert first == again
    assert len(first.asked) == QUESTIONS
    others = [question_set(module, ola_id, DAY, 2), question_set(module, ola_id, "2026-03-03", 1)]
    assert all(other.asked != first.asked for other in others)


def test_right_answers_are_marked_right_and_kept_once(
    ola: FlaskClient, ola_id, kept, curriculum: Curriculum
):
    asked = question_set(curriculum.module(MODULE), ola_id, DAY, 1).asked
    answers = {one.position: right_answer(one) for one in asked}
    for _ in range(2):
        page = post(ola, answers)
        assert page.count('class="verdict is-right"') >= QUESTIONS
    assert [answer.is_right for answer in kept()] == [True] * QUESTIONS


def test_a_question_left_out_is_not_marked_and_an_unclear_one_is_asked_about(
    ola: FlaskClient, ola_id, kept, curriculum: Curriculum
):
    sets = (question_set(curriculum.module(MODULE), ola_id, DAY, n) for n in range(1, 30))
    number, typed = next(
        (found.round, one) for found in sets for one in found.asked if one.variant is not None
    )
    page = post(ola, {typed.position: "1,5"}, number)
    assert "What does the comma in “1,5” mean?" in page
    assert 'value="1,5"' in page
    assert kept() == []


def test_the_page_brings_the_next_rounds_along(ola: FlaskClient):
    page = ola.get(f"/learn/{MODULE}/practice").get_data(as_text=True)
    (block,) = re.findall(
        r'<script type="application/json" id="practice-data">(.*?)</script>', page
    )
    rounds = json.loads(block)
    assert [one["round"] for one in rounds] == list(range(1, ROUNDS + 1))
    assert {len(one["questions"]) for one in rounds} == {QUESTIONS}
    second = ola.get(f"/learn/{MODULE}/practice?round=7").get_data(as_text=True)
    assert 'name="round" value="7"' in second


def test_no_key_of_a_quiz_that_counts_is_on_any_page_of_it(ola: FlaskClient, quiz_of):
    page = ola.get(quiz_of(MODULE, "target-b") + "/1")
    text = page.get_data(as_text=True)
    assert "practice-data" not in text
    assert '"key"' not in text


def test_an_answer_from_a_phone_is_marked_again_here(
    ola: FlaskClient, ola_id, kept, curriculum: Curriculum
):
    phone = Phone(ola_id)
    asked = question_set(curriculum.module(MODULE), ola_id, DAY, 2).asked[0]
    told = {"module": MODULE, "day": DAY, "round": 2, "item": asked.question.id}
    told["version"] = asked.question.version
    right = phone.item("practice-answer", {**told, "typed": right_answer(asked), "is_right": False})
    older = phone.item("practice-answer", {**told, "version": 99, "typed": "1", "is_right": True})
    gone = phone.item("practice-answer", {**told, "item": "no-such", "typed": "1"})
    outcomes = send_all(ola, right, older, gone)
    assert [one["receipt"]["result"]["is_right"] for one in outcomes] == [True, None, None]
    assert len(kept()) == 3
