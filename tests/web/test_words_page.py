"""The words of the trade: both languages beside each other, on every phone."""

import pytest
from markupsafe import escape

from app.curriculum.loading.glossary import load_glossary
from app.settings import ROOT

GROUPS = load_glossary(ROOT / "content").groups


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_word_is_there_with_its_meaning_and_the_other_language(ola, language: str):
    ola.post("/show", data={"language": language})
    page = ola.get("/words").text
    other = "en" if language == "es" else "es"
    for word in (word for group in GROUPS for word in group.words):
        mine, theirs = (escape(word.word.in_language(one)) for one in (language, other))
        beside = f'<dt>{mine} <span class="other-word" lang="{other}">{theirs}</span></dt>'
        assert beside in page, word.id
        assert escape(word.meaning.in_language(language)) in page, word.id


def test_what_else_is_heard_is_told_in_the_readers_language(ola):
    assert "Also heard: SDS." in ola.get("/words").text
    assert "hoja de datos de seguridad" not in ola.get("/words").text


def test_every_page_leads_to_it_and_every_phone_keeps_it(ola):
    assert 'href="/words"' in ola.get("/learn").text
    told = ola.get("/on-this-phone/list").get_json()["groups"]
    assert ["/words"] in [group["urls"] for group in told]
    assert ola.get("/words").headers["Lowport-Keep"] == "yes"
