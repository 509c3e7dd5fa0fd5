"""PURE. How plain a text is: Flesch–Kincaid grade for English, INFLESZ for Spanish.

Grade = 0.39·W/S + 11.8·Y/W − 15.59 (Kincaid et al. 1975); INFLESZ = 206.835 − 62.3·Y/W − W/S
(Szigriszt–Pazos). W words, S sentences, Y syllables. Syllables are counted here, because general
libraries undercount Spanish ones. A figure counts as one word with a syllable per digit.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from app.curriculum.plain_words.syllables import english_syllables, spanish_syllables

HIGHEST_GRADE = 8.0
WARN_GRADE = 6.0
LOWEST_INFLESZ = 55.0
WARN_INFLESZ = 65.0
LEAST_BLOCK_WORDS = 100
_WORD = re.compile(r"\w+(?:[.,:'’/-]\w+)*")
_SENTENCE_END = re.compile(r"(?<=[.!?])[\"”')]*\s+(?=\S)|\n+|(?<=:)\s*\n")


@dataclass(frozen=True)
class Counts:
    """What the formulas need: words, sentences, syllables."""

    words: int
    sentences: int
    syllables: int

    def grade(self) -> float:
        """Flesch–Kincaid grade; ValueError without a word."""
        self._needs_words()
        return 0.39 * self.words / self.sentences + 11.8 * self.syllables / self.words - 15.59

    def inflesz(self) -> float:
        """Szigriszt–Pazos score, higher is plainer; ValueError without a word."""
        self._needs_words()
        return 206.835 - 62.3 * self.syllables / self.words - self.words / self.sentences

    def _needs_words(self) -> None:
        if not self.words:
            raise ValueError("no words to count")


def words_of(text: str) -> list[str]:
    """The words of `text`; a hyphenated word is one."""
    return _WORD.findall(text)


def count(text: str, language: str) -> Counts:
    """Counts of `text`; each line ends a sentence too, as list items do. Languages: en, es."""
    syllables = {"en": english_syllables, "es": spanish_syllables}[language]
    sentences = [piece for piece in _SENTENCE_END.split(text) if words_of(piece)]
    words = words_of(text)
    return Counts(len(words), len(sentences), sum(syllables(word) for word in words))


def blocks(paragraphs: Sequence[str], least_words: int = LEAST_BLOCK_WORDS) -> list[str]:
    """Paragraphs joined in order into blocks of `least_words` or more.

    What is left at the end joins the last block; a text shorter than one block is one block.
    """
    made: list[str] = []
    waiting: list[str] = []
    for paragraph in paragraphs:
        waiting.append(paragraph)
        if sum(len(words_of(piece)) for piece in waiting) >= least_words:
            made.append("\n".join(waiting))
            waiting = []
    if waiting and made:
        made[-1] = "\n".join([made[-1], *waiting])
    elif waiting:
        made.append("\n".join(waiting))
    return made


def hardest_block(paragraphs: Sequence[str], language: str) -> tuple[float, str]:
    """The worst score over the blocks and that block: highest grade (en), lowest INFLESZ (es)."""
    counted = [(count(block, language), block) for block in blocks(paragraphs)]
    if language == "es":
        return min((counts.inflesz(), block) for counts, block in counted)
    return max((counts.grade(), block) for counts, block in counted)
