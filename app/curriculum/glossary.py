"""PURE. The words of the trade in both languages, as content/glossary.yaml has them."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from app.curriculum.text import Frozen, Id, Text


class Heard(Frozen):
    """Other words heard on site for the same thing, in one language or both."""

    en: Annotated[str, Field(min_length=1)] | None = None
    es: Annotated[str, Field(min_length=1)] | None = None

    def in_language(self, language: str) -> str | None:
        """The words heard in one language; None where there are none."""
        return self.es if language == "es" else self.en


class Word(Frozen):
    """One idea: the word for it in each language, what it means, what else is heard."""

    id: Id
    word: Text
    meaning: Text
    also: Heard | None = None


class WordGroup(Frozen):
    """Words that belong together, under one heading."""

    id: Id
    title: Text
    words: Annotated[tuple[Word, ...], Field(min_length=1)]


class Glossary(Frozen):
    """All groups in the order in which they are shown."""

    groups: tuple[WordGroup, ...] = ()
