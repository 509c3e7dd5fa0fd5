"""Every text of the pages has its Spanish: complete, with the same places, in the trade's words.

Reference for the words: content/glossary.yaml, and ANSI Z535.4 for the order of the signal words.
"""

import re

import pytest
import yaml

from app.cli import word_catalogs as catalogs
from app.cli.word_extraction import is_sentence, run_time_words
from app.curriculum.plain_words.readability import (
    HIGHEST_GRADE,
    LOWEST_INFLESZ,
    hardest_block,
    words_of,
)
from app.records.standing.reasons import SENTENCES
from app.settings import ROOT
from app.trade.errors import Refusal

_GROUPS = yaml.safe_load((ROOT / "content" / "glossary.yaml").read_text())["groups"]
GLOSSARY = [word for group in _GROUPS for word in group["words"]]
LEAST_WORDS = 100  # shared readability rule: blocks of 100 words or more


@pytest.fixture(scope="module")
def spanish():
    """Today's texts with the Spanish that is kept for them."""
    return catalogs.brought_up_to_date()


def said(spanish, english: str) -> str:
    message = spanish.get(english)
    assert message is not None, f"no page says “{english}”"
    return message.string


def every_text(spanish) -> list[str]:
    texts = [m.string if isinstance(m.string, tuple) else (m.string,) for m in spanish if m.id]
    return [text for several in texts for text in several if text]


def test_every_text_has_spanish_with_the_same_places(spanish):
    wrong = {m.id: found for m in spanish if m.id and (found := catalogs.problems(m))}
    assert wrong == {}, "write the Spanish into messages.po, then run: make words"


def test_the_compiled_file_is_made_from_the_words():
    assert catalogs.is_compiled(), "run: make words"


def test_pages_and_parts_and_scripts_are_all_searched(spanish):
    places = {place for m in spanish for place, _line in m.locations}
    assert "app/web/templates/_components/foot.html" in places
    assert any(place.startswith("app/web/static/js/") for place in places)
    assert "app/trade/typed_number.py" in places


def test_what_is_translated_at_run_time_is_collected(spanish):
    for sentence in SENTENCES.values():
        assert said(spanish, sentence), sentence
    for refusal in all_refusals():
        if refusal.__module__.startswith(("app.trade", "app.records", "app.accounts")):
            assert spanish.get(refusal.template) or not is_sentence(refusal.template), refusal


def all_refusals(of=Refusal) -> list[type[Refusal]]:
    return [one for kind in of.__subclasses__() for one in (kind, *all_refusals(kind))]


def test_whole_sentences_and_reasons_are_taken_and_docstrings_are_not():
    source = '''
"""This is a docstring. It is not shown."""
class Cold(Refusal):
    """Not this."""
    template = "It is {degrees} here."
raise Refusal(reason="too cold")
name = "a name"
_KNOWN = "SELECT no FROM standing_person WHERE person = ?"
told = f"It is {name} here."
MORE_WORDS = {"a": "first"}
'''
    assert [node.value for node in run_time_words(source)] == [
        "It is {degrees} here.",
        "too cold",
        "first",
    ]


@pytest.mark.parametrize("name", ["danger", "warning", "caution", "notice"])
def test_signal_words_are_those_of_the_glossary(spanish, name: str):
    word = next(one for one in GLOSSARY if one["id"] == name)["word"]
    assert said(spanish, word["en"]) == word["es"]


def test_the_parts_of_a_step_are_headed_as_in_the_glossary(spanish):
    heads = [said(spanish, part) for part in ("Do", "Check", "Stop if", "Why")]
    rule = " ".join(line.strip("# ") for line in (ROOT / "content/glossary.yaml").open())
    assert f"The four parts of a step: {', '.join(heads)}." in rule


# Words of site talk with a second meaning that pages need.
OTHER_MEANING = {"firma": "a signature", "bote": "a port that comes off"}


def test_one_spanish_word_for_each_idea(spanish):
    """What the glossary lists as also heard is not used beside the word it gives."""
    also = [part for one in GLOSSARY for part in one.get("also", {}).get("es", "").split(", ")]
    avoided = [word for word in also if word and word not in OTHER_MEANING]
    kept = {one["word"]["es"] for one in GLOSSARY}
    for word in set(avoided) - kept:
        found = [t for t in every_text(spanish) if re.search(rf"\b{word}s?\b", t, re.IGNORECASE)]
        assert not found, f"{word}: {found}"


def test_people_are_spoken_to_as_usted(spanish):
    familiar = re.compile(r"\b(tú|tu|tus|te|ti|contigo|tuyo|tuya|eres|tienes|puedes)\b", re.I)
    assert [text for text in every_text(spanish) if familiar.search(text)] == []


@pytest.mark.parametrize("language", ["en", "es"])
def test_texts_of_a_page_are_plain(spanish, language: str):
    """Szigriszt–Pazos for Spanish, Flesch–Kincaid for English, over each file's whole sentences."""
    by_file: dict[str, list[str]] = {}
    for message in spanish:
        text = message.string if language == "es" else message.id
        if isinstance(text, str) and text.endswith((".", "?")) and message.locations:
            plain = re.sub(r"%\(\w+\)s|\{\w+\}", "5", text)
            by_file.setdefault(message.locations[0][0], []).append(plain)
    for file, texts in by_file.items():
        if len(words_of(" ".join(texts))) >= LEAST_WORDS:
            score, block = hardest_block(texts, language)
            is_plain = score >= LOWEST_INFLESZ if language == "es" else score <= HIGHEST_GRADE
            assert is_plain, f"{file}: {score:.0f} in {block}"
