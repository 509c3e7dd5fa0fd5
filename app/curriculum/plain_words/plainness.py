"""PURE. How plain a module's lesson is, over the words a person reads on its cards."""

from __future__ import annotations

from app.curriculum.model import Lesson
from app.curriculum.plain_words.readability import hardest_block


def paragraphs_of(lesson: Lesson) -> list[str]:
    """The lesson's words in reading order: introduction, then each card's cautions and parts."""
    found = [lesson.summary, lesson.introduction.plain]
    for step in lesson.steps:
        found += [f"{step.title}.", *(caution.text.plain for caution in step.cautions)]
        found += [part.plain for part in step.parts()]
    return [line for text in found for line in text.splitlines() if line.strip()]


def plainness(lesson: Lesson) -> tuple[float, str]:
    """The hardest block's score and that block: grade (en) or INFLESZ (es)."""
    return hardest_block(paragraphs_of(lesson), lesson.language)
