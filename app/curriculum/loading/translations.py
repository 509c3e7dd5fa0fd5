"""Is every English text translated, and is the translation as new as its English?

content/translated.yaml keeps, for each text, the digest of the English that the Spanish was made
from. Changing the English makes the digest differ until a translator has looked at the Spanish and
the record is written anew (``lowport content translated``).
"""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import yaml

from app.curriculum.loading.problems import Collector
from app.curriculum.text import DEFAULT_LANGUAGE

RECORD = "translated.yaml"
LANGUAGE = "es"
_HEADING = re.compile(r"^(## .*|### .*)$", re.MULTILINE)
_STEP = re.compile(r"^## ([a-z0-9-]+) \|")


def digest(text: str) -> str:
    """Twelve hex digits of the SHA-256 of a text with its spaces folded."""
    return hashlib.sha256(" ".join(text.split()).encode()).hexdigest()[:12]


def english_digests(folder: Path) -> dict[str, str]:
    """The digest of every English text by its place: file, then the keys or headings to it."""
    found: dict[str, str] = {}
    for path in _yaml_files(folder):
        file = path.relative_to(folder).as_posix()
        for place, texts in _texts_in(yaml.safe_load(path.read_text()), ""):
            found[f"{file}{place}"] = digest(texts[DEFAULT_LANGUAGE])
    for path in sorted(folder.glob(f"modules/*/lesson.{DEFAULT_LANGUAGE}.md")):
        file = path.relative_to(folder).as_posix()
        found.update({f"{file}{place}": digest(text) for place, text in _parts(path.read_text())})
    return found


def check_translations(folder: Path, problems: Collector) -> None:
    """Note every text without Spanish, and every Spanish older than its English."""
    for path in _yaml_files(folder):
        file = path.relative_to(folder).as_posix()
        for place, texts in _texts_in(yaml.safe_load(path.read_text()), ""):
            if not str(texts.get(LANGUAGE, "")).strip():
                problems.add(file, 1, place.removeprefix("/#"), "has no Spanish words (es)")
    for path in sorted(folder.glob(f"modules/*/lesson.{DEFAULT_LANGUAGE}.md")):
        if not path.with_name(f"lesson.{LANGUAGE}.md").is_file():
            problems.add(path.relative_to(folder).as_posix(), 1, LANGUAGE, "is not translated")
    kept = read_record(folder)
    for place, now in english_digests(folder).items():
        if kept.get(place) != now:
            file, _, key = place.partition("/#")
            problems.add(file, 1, key, "the English changed after the Spanish was written")


def read_record(folder: Path) -> dict[str, str]:
    """The digests kept when the Spanish was last looked at; empty where there is no record."""
    path = folder / RECORD
    return dict(yaml.safe_load(path.read_text()) or {}) if path.is_file() else {}


def write_record(folder: Path) -> int:
    """Keep today's English as what the Spanish was made from; return how many texts."""
    digests = english_digests(folder)
    head = "# The English each Spanish text was made from. Written by: lowport content translated\n"
    (folder / RECORD).write_text(head + yaml.safe_dump(digests, sort_keys=True, width=1000))
    return len(digests)


def _yaml_files(folder: Path) -> list[Path]:
    return [
        folder / "qualifications.yaml",
        folder / "sources.yaml",
        folder / "crew.yaml",
        *folder.glob("glossary.yaml"),
        *sorted(folder.glob("modules/*/checklist.yaml")),
        *sorted(folder.glob("modules/*/questions.yaml")),
    ]


def _texts_in(value: Any, place: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every mapping that holds English words, with the way to it; list items by their id."""
    if isinstance(value, dict) and isinstance(value.get(DEFAULT_LANGUAGE), str):
        yield f"/#{place.lstrip('.')}", value
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from _texts_in(inner, f"{place}.{key}")
    elif isinstance(value, list):
        for number, inner in enumerate(value):
            name = inner.get("id", number) if isinstance(inner, dict) else number
            yield from _texts_in(inner, f"{place}.{name}")


def _parts(text: str) -> Iterator[tuple[str, str]]:
    """The head and each part of a lesson, by step id and heading."""
    pieces = _HEADING.split(text)
    yield "/#head", pieces[0]
    step = ""
    for heading, body in zip(pieces[1::2], pieces[2::2], strict=True):
        found = _STEP.match(heading)
        step = found.group(1) if found else step
        yield f"/#{step}.{'step' if found else heading.strip('# ')}", f"{heading}\n{body}"
