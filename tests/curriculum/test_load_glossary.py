"""The words of the trade: read from their file, each once, every mistake with its place."""

import shutil
from pathlib import Path

import pytest

from app.curriculum.loading.glossary import load_glossary
from app.curriculum.loading.problems import ContentErrors
from app.settings import ROOT

GLOSSARY = ROOT / "content" / "glossary.yaml"


def test_the_projects_own_words_are_in_both_languages():
    groups = load_glossary(ROOT / "content").groups
    words = [word for group in groups for word in group.words]
    assert {word.id for word in words} >= {"port", "pot-life", "purge", "ratio-sample", "seal"}
    for text in (text for word in words for text in (word.word, word.meaning)):
        assert set(text.root) == {"en", "es"}


def test_a_word_that_stands_twice_is_refused_with_its_line(tmp_path: Path):
    shutil.copy(GLOSSARY, tmp_path)
    file = tmp_path / "glossary.yaml"
    text = file.read_text().replace("- id: trainer\n", "- id: crew\n")
    file.write_text(text)
    line = 1 + text[: text.rindex("- id: crew\n")].count("\n")
    with pytest.raises(ContentErrors, match="crew stands here more than once") as refused:
        load_glossary(tmp_path)
    assert f"glossary.yaml:{line}" in str(refused.value)


def test_a_word_without_a_meaning_is_refused(tmp_path: Path):
    words = '{id: port, word: {en: "port", es: "puerto"}}'
    text = f"groups:\n  - id: ports\n    title: {{en: P, es: P}}\n    words: [{words}]\n"
    (tmp_path / "glossary.yaml").write_text(text)
    with pytest.raises(ContentErrors, match="meaning"):
        load_glossary(tmp_path)


def test_a_folder_without_the_file_has_no_words(tmp_path: Path):
    assert load_glossary(tmp_path).groups == ()
