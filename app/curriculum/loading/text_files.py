"""The files of one text: read from the content folder, and made into a module or policy again."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import yaml

from app.curriculum.loading.policy import Policy, load_policy
from app.curriculum.loading.problems import Collector
from app.curriculum.loading.yaml_lines import SAFE_LOADER
from app.curriculum.model import ChecklistItem, Lesson

SOURCES = "sources.yaml"


def raw_sources(root: Path) -> dict[str, Any]:
    """sources.yaml as plain data; empty where it can't be read (the loader says why)."""
    try:
        found = yaml.load((root / SOURCES).read_text(encoding="utf-8"), Loader=SAFE_LOADER)
    except (OSError, UnicodeDecodeError, yaml.YAMLError):
        return {}
    return found if isinstance(found, dict) else {}


def cited_sources(
    lessons: Iterable[Lesson], checklist: Iterable[ChecklistItem], questions: Iterable[Any]
) -> set[str]:
    """The ids of every source that a module's lessons, checklist and questions name."""
    found = {item.source for item in checklist} | {question.source for question in questions}
    for lesson in lessons:
        found.update(lesson.introduction.source_ids)
        for step in lesson.steps:
            found.update(step.source_ids())
    return {name for name in found if name}


def module_files(
    root: Path, name: str, cited: Iterable[str], sources: Mapping[str, Any]
) -> dict[str, bytes]:
    """Every file of a module, hidden ones left out, and of sources.yaml the entries it cites.

    The entries stand as JSON with sorted keys, which is YAML as well, so that their bytes depend
    on nothing but what they say.
    """
    folder = root / "modules" / name
    paths = (path for path in folder.rglob("*") if path.is_file())
    files = {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in paths
        if not any(part.startswith(".") for part in path.relative_to(folder).parts)
    }
    kept = {name: sources[name] for name in sorted(cited) if name in sources}
    text = json.dumps(kept, indent=1, sort_keys=True, ensure_ascii=False, default=str)
    return {**files, SOURCES: f"{text}\n".encode()}


def policy_files(root: Path) -> dict[str, bytes]:
    """The policy's files, as far as they are there: qualifications, and the hands a job needs."""
    paths = (root / name for name in ("qualifications.yaml", "crew.yaml"))
    return {path.name: path.read_bytes() for path in paths if path.is_file()}


@contextmanager
def laid_out(files: Mapping[str, bytes]) -> Iterator[Path]:
    """A folder with these files, while it is needed; ValueError for a path that leads out of it."""
    with TemporaryDirectory(prefix="lowport-text-") as made:
        root = Path(made).resolve()
        for path, data in files.items():
            target = (root / path).resolve()
            if not target.is_relative_to(root):
                raise ValueError(f"{path} leads out of the content folder")
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(data)
        yield root


def policy_in(files: Mapping[str, bytes]) -> Policy:
    """The policy in kept files. Raises ContentErrors where this program can't read them."""
    problems = Collector()
    with laid_out(files) as root:
        found = load_policy(root, problems)
    problems.raise_if_any()
    return found
