"""A Spanish text that is missing, or older than its English, is a problem."""

import re
import shutil

import pytest

from app.curriculum.loading.problems import Collector
from app.curriculum.loading.translations import check_translations, digest, write_record
from app.settings import ROOT


@pytest.fixture
def folder(tmp_path):
    copy = tmp_path / "content"
    shutil.copytree(ROOT / "content", copy)
    write_record(copy)
    return copy


def problems_of(folder):
    problems = Collector()
    check_translations(folder, problems)
    return [str(problem) for problem in problems.found]


def test_the_real_content_is_translated_and_as_new_as_its_english():
    assert problems_of(ROOT / "content") == []


def test_a_changed_english_sentence_makes_the_spanish_old(folder):
    lesson = folder / "modules/shutdown/lesson.en.md"
    lesson.write_text(lesson.read_text().replace("### Why\n", "### Why\nOne more sentence. ", 1))
    (found,) = problems_of(folder)
    assert found.startswith("modules/shutdown/lesson.en.md:1: ")
    assert "the English changed after the Spanish was written" in found


def test_a_question_without_spanish_is_named(folder):
    path = folder / "modules/shutdown/questions.yaml"
    path.write_text(re.sub(r', es: "[^"]*"', "", path.read_text(), count=1))
    found = problems_of(folder)
    assert len(found) == 1
    assert "modules/shutdown/questions.yaml:1: questions." in found[0]
    assert "has no Spanish words" in found[0]


def test_a_missing_lesson_is_named(folder):
    (folder / "modules/shutdown/lesson.es.md").unlink()
    assert problems_of(folder) == ["modules/shutdown/lesson.en.md:1: es: is not translated"]


def test_white_space_alone_changes_nothing():
    assert digest("a  b\nc") == digest("a b c")
