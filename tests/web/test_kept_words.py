"""What templates keep is kept by all it follows from: language, values, address, the text."""

import re

import pytest
from flask import Flask, render_template_string, url_for

from app.curriculum.model import Curriculum
from app.curriculum.text import Text
from app.web.kept_words import address, drawn, kept_in_each_language, told

CARD = ("_components/lesson.html", "step_text")
STEP = "/learn/safety-gear/steps/1"


def show(client, **choice) -> None:
    assert client.post("/show", data={**choice, "back": "/learn"}).status_code == 302


def test_a_page_follows_the_language_back_and_forth(ola):
    seen = []
    for language in ("en", "es", "en", "es"):
        show(ola, language=language)
        seen.append(ola.get(STEP).get_data(as_text=True))
    assert (seen[0], seen[1]) == (seen[2], seen[3])
    assert ("Says who?" in seen[0], "Says who?" in seen[1]) == (True, False)
    assert "The engineer comes first." in seen[0]
    assert "The engineer comes first." not in seen[1]


def test_two_people_on_one_step_see_their_own_page(cast, ola, curriculum):
    cast.add("ben.worker", "worker")
    ben = cast.sign_in("ben.worker")
    ola.get(STEP)
    assert ola.post(STEP).status_code == 303
    hers, his = (client.get(STEP).get_data(as_text=True) for client in (ola, ben))
    total = len(curriculum.module("safety-gear").lesson("en").steps)
    assert f"1 of {total} done" in hers
    assert f"0 of {total} done" in his
    card = re.compile(r'<header class="step-head">.*?<div class="step-foot', re.DOTALL)
    assert card.findall(hers) == card.findall(his) != []
    assert 'data-sign-in-name="ola.worker"' in hers
    assert "ola.worker" not in his


def test_a_card_follows_every_word_of_step_and_sources(app: Flask, curriculum: Curriculum):
    module = curriculum.module("safety-gear")
    step = module.lesson("en").steps[0]
    name = step.source_ids()[0]
    source = curriculum.source(name)
    other = step.model_copy(update={"why": step.why.model_copy(update={"html": "<p>Else.</p>"})})
    renamed = source.model_copy(update={"title": Text({"en": "Another title"})})
    with app.test_request_context():
        first = drawn(*CARD, step, 1, 9, ((name, source),))
        assert "Else." in drawn(*CARD, other, 1, 9, ((name, source),))
        assert "Another title" in drawn(*CARD, step, 1, 9, ((name, renamed),))
        assert "1 of 8" in drawn(*CARD, step, 1, 8, ((name, source),))
        assert drawn(*CARD, step, 1, 9, ((name, source),)) == first


def test_texts_that_are_equal_are_kept_as_one():
    one, same = Text({"en": "Port", "es": "Puerto"}), Text({"es": "Puerto", "en": "Port"})
    assert (one == same, hash(one) == hash(same)) == (True, True)
    assert len({one, same, Text({"en": "Port"})}) == 2


def test_values_are_escaped_and_a_doubled_percent_sign_is_one(app: Flask):
    with app.test_request_context():
        assert told("Made by %(name)s", name="<b>") == "Made by &lt;b&gt;"
        assert told("As in 15 %%.") == "As in 15 %."
        page = render_template_string("{{ _('Back to step %(number)s', number='<i>') }}")
        assert page == "Back to step &lt;i&gt;"


@pytest.mark.parametrize("number", [1, True, 1.0, "1"])
def test_addresses_are_those_of_flask(app: Flask, number):
    with app.test_request_context():
        for _ in range(2):
            assert address("officer.board", page=number) == url_for("officer.board", page=number)
            assert address("worker.learn", _external=True) == "http://localhost/learn"


def test_behind_another_path_addresses_are_others(app: Flask):
    for root in ("", "/firm", ""):
        with app.test_request_context("/learn", environ_overrides={"SCRIPT_NAME": root}):
            assert address("worker.learn") == f"{root}/learn"


def test_what_is_said_is_kept_for_each_language_and_value(app: Flask):
    asked = []

    @kept_in_each_language
    def say(value):
        asked.append(value)
        return f"{told('Done')} {value}"

    for language in ("en", "es", "en", "es"):
        with app.test_request_context(headers={"Accept-Language": language}):
            word = {"en": "Done", "es": "Hecho"}[language]
            assert (say(1), say("1"), say(True)) == (f"{word} 1", f"{word} 1", f"{word} True")
    assert asked == [1, "1", True] * 2
