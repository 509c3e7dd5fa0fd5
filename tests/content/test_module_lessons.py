"""The lessons people learn from: complete, plain, and every number with a source."""

import re
from pathlib import Path

import pytest
import yaml

from app.curriculum.plain_words.plainness import paragraphs_of
from app.curriculum.plain_words.readability import blocks, count, words_of

CONTENT = Path(__file__).resolve().parents[2] / "content"
MODULES = sorted(path.name for path in (CONTENT / "modules").iterdir() if path.is_dir())
EIGHT = {
    "safety-gear", "surface-preparation", "port-setting", "seal-mixing",
    "pump-purge", "ratio-sample", "injection-order", "shutdown",
}  # fmt: skip


def test_the_eight_modules_are_there(curriculum):
    assert set(MODULES) == set(curriculum.modules) == EIGHT


@pytest.mark.parametrize("module", MODULES)
def test_a_lesson_has_six_to_twelve_whole_steps_and_two_figures(curriculum, module):
    steps = curriculum.module(module).lesson("en").steps
    assert 6 <= len(steps) <= 12
    assert sum(step.figure is not None for step in steps) >= 2
    for step in steps:
        assert all(words_of(part.plain) for part in step.parts()), step.id


@pytest.mark.parametrize("module", MODULES)
def test_every_block_of_a_lesson_is_at_grade_eight_or_lower(curriculum, module):
    """Flesch–Kincaid (Kincaid et al. 1975) over blocks of a hundred words or more."""
    made = blocks(paragraphs_of(curriculum.module(module).lesson("en")))
    assert len(made) >= 5
    for block in made:
        counts = count(block, "en")
        assert counts.words >= 100
        assert counts.grade() <= 8, block[:200]


# Read again here by the file's own text, not by the loader.
@pytest.mark.parametrize("module", MODULES)
def test_every_number_of_a_lesson_stands_in_a_mark_with_a_source(module):
    sources = yaml.safe_load((CONTENT / "sources.yaml").read_text())
    text = (CONTENT / "modules" / module / "lesson.en.md").read_text().split("---\n", 2)[2]
    for mark in re.findall(r"\{\{(.*?)\}\}", text, re.DOTALL):
        assert mark.rsplit("|", 1)[1].strip() in sources, mark
    rest = re.sub(r"\{\{.*?\}\}", "", text, flags=re.DOTALL)
    rest = re.sub(r"(?m)^\s*\d+\. ", "", rest)
    assert re.findall(r".*\d.*", rest) == []


@pytest.mark.parametrize("module", MODULES)
def test_every_fact_of_a_card_finds_its_source_in_the_cards_own_list(curriculum, module):
    for step in curriculum.module(module).lesson("en").steps:
        html = "".join(part.html for part in step.parts())
        html += "".join(caution.text.html for caution in step.cautions)
        html += step.figure.caption.html if step.figure else ""
        linked = set(re.findall(r'href="#src-([^"]+)"', html))
        assert linked == {f"{step.id}-{source}" for source in step.source_ids()}


@pytest.mark.parametrize("module", MODULES)
def test_every_lesson_says_who_comes_first(curriculum, module):
    said = curriculum.module(module).lesson("en").introduction.plain.lower()
    for words in ("engineer", "product data sheet", "safety data sheet", "local codes"):
        assert words in said


@pytest.mark.parametrize("module", MODULES)
def test_every_drawing_is_used(curriculum, module):
    drawn = {path.name for path in (CONTENT / "modules" / module / "figures").glob("*.svg")}
    steps = curriculum.module(module).lesson("en").steps
    assert drawn == {step.figure.file for step in steps if step.figure}


def test_the_lessons_name_where_sources_disagree(curriculum):
    """Spacing, starting point of a horizontal crack, and blowing out with air."""
    said = {
        name: " ".join(paragraphs_of(curriculum.module(name).lesson("en"))).lower()
        for name in ("port-setting", "injection-order", "surface-preparation")
    }
    for module, words in said.items():
        assert re.search(r"(do not|don't|disagree|not all) ?(agree)?", words), module
    assert "spac" in said["port-setting"]
    assert "widest" in said["injection-order"]
    assert re.search(r"vacuum|air", said["surface-preparation"])
