"""glossary.yaml: the words of the trade."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from app.curriculum.glossary import Glossary
from app.curriculum.loading.problems import Collector
from app.curriculum.loading.shapes import ContentFile, open_yaml

FILE = "glossary.yaml"


def load_glossary(folder: Path) -> Glossary:
    """Read and check glossary.yaml; a folder without one has no words.

    Raises ContentErrors with every problem found: each id once. That
    every word has its Spanish is checked with all other texts (translations.py).
    """
    if not (folder / FILE).exists():
        return Glossary()
    problems = Collector()
    content = open_yaml(folder / FILE, folder, problems)
    found = content.shaped(Glossary, content.located.data) if content else None
    if content and found:
        _check(content, found)
    problems.raise_if_any()
    assert found is not None
    return found


def _check(content: ContentFile, found: Glossary) -> None:
    times = Counter(word.id for group in found.groups for word in group.words)
    times.update(group.id for group in found.groups)
    for place, group in enumerate(found.groups):
        if times[group.id] > 1:
            content.note(("groups", place, "id"), f"{group.id} stands here more than once")
        for number, word in enumerate(group.words):
            if times[word.id] > 1:
                path = ("groups", place, "words", number, "id")
                content.note(path, f"{word.id} stands here more than once")
