"""The content folder into a Curriculum. Every problem is collected, then all are raised together.

load_curriculum(Path("content"))            # a Curriculum, or ContentErrors
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from app.curriculum.bundles import POLICY, hash_of
from app.curriculum.loading.checklists import load_checklist
from app.curriculum.loading.lessons import load_lesson
from app.curriculum.loading.policy import load_policy, load_sources
from app.curriculum.loading.problems import Collector, ContentErrors
from app.curriculum.loading.questions import load_questions
from app.curriculum.loading.text_files import (
    cited_sources,
    laid_out,
    module_files,
    policy_files,
    raw_sources,
)
from app.curriculum.model import Curriculum, Lesson, Module, Source
from app.curriculum.plain_words.plainness import plainness
from app.curriculum.plain_words.readability import HIGHEST_GRADE, LOWEST_INFLESZ
from app.curriculum.questions.formula import Calculators
from app.curriculum.text import DEFAULT_LANGUAGE
from app.trade.registry import CALCULATORS

__all__ = ["ContentErrors", "load_curriculum", "load_kept_module"]

_LESSON_FILE = re.compile(r"^lesson\.(en|es)\.md$")


def load_curriculum(folder: Path, calculators: Calculators = CALCULATORS) -> Curriculum:
    """Read and check the whole content folder; raises ContentErrors with every problem found."""
    problems = Collector()
    sources = load_sources(folder, problems)
    policy = load_policy(folder, problems)
    _check_folders(folder, policy.modules, problems)
    raw = raw_sources(folder)
    modules = {
        name: _load_module(folder, name, sources, raw, calculators, problems)
        for name in policy.modules
        if (folder / "modules" / name).is_dir()
    }
    problems.raise_if_any()
    texts = policy_files(folder)
    return Curriculum(
        policy_version=policy.version,
        policy_files=texts,
        policy_hash=hash_of(texts),
        modules={name: module for name, module in modules.items() if module is not None},
        qualifications=policy.qualifications,
        sources=sources,
    )


def load_kept_module(
    name: str, files: Mapping[str, bytes], calculators: Calculators = CALCULATORS
) -> Module:
    """A module from the files kept of it. Raises ContentErrors if this program can't read them."""
    problems = Collector()
    with laid_out(files) as root:
        sources = load_sources(root, problems)
        module = _load_module(root, name, sources, raw_sources(root), calculators, problems)
    problems.raise_if_any()
    assert module is not None
    return module


def _check_folders(folder: Path, modules: tuple[str, ...], problems: Collector) -> None:
    base = folder / "modules"
    present = {path.name for path in base.iterdir() if path.is_dir()} if base.is_dir() else set()
    if POLICY in present:
        problems.add(f"modules/{POLICY}", 1, "folder", "can't have the policy's name")
    for name in modules:
        if name not in present:
            problems.add(f"modules/{name}", 1, "folder", "is missing")
    for name in sorted(present - set(modules)):
        problems.add(f"modules/{name}", 1, "folder", "is not listed in qualifications.yaml")


def _load_module(
    root: Path,
    name: str,
    sources: Mapping[str, Source],
    raw: Mapping[str, Any],
    calculators: Calculators,
    problems: Collector,
) -> Module | None:
    folder = root / "modules" / name
    lessons = _load_lessons(folder, root, sources, problems)
    checklist = load_checklist(folder / "checklist.yaml", root, sources, calculators, problems)
    questions = load_questions(folder / "questions.yaml", root, sources, calculators, problems)
    if problems.found:
        return None
    cited = cited_sources(lessons.values(), checklist, questions)
    files = module_files(root, name, cited, raw)
    return Module(
        id=name,
        lessons=lessons,
        checklist=checklist,
        questions=questions,
        sources={source: sources[source] for source in sorted(cited)},
        files=files,
        content_hash=hash_of(files),
    )


def _load_lessons(
    folder: Path, root: Path, sources: Mapping[str, Source], problems: Collector
) -> dict[str, Lesson]:
    paths = {path.name for path in folder.iterdir() if _LESSON_FILE.match(path.name)}
    paths.add(f"lesson.{DEFAULT_LANGUAGE}.md")
    lessons: dict[str, Lesson] = {}
    for name in sorted(paths):
        lesson = load_lesson(folder / name, root, sources, problems)
        if lesson is not None:
            lessons[lesson.language] = lesson
            _check_plainness((folder / name).relative_to(root).as_posix(), lesson, problems)
    _compare_languages(folder.relative_to(root).as_posix(), lessons, problems)
    return lessons


def _check_plainness(file: str, lesson: Lesson, problems: Collector) -> None:
    score, block = plainness(lesson)
    too_hard = score < LOWEST_INFLESZ if lesson.language == "es" else score > HIGHEST_GRADE
    if too_hard:
        sentence = f"too hard to read ({score:.1f}) in the block that begins: {block[:60]!r}"
        problems.add(file, 1, "plainness", sentence)


def _compare_languages(module: str, lessons: dict[str, Lesson], problems: Collector) -> None:
    """A translation has the same steps and the same revision as the English lesson."""
    english = lessons.get(DEFAULT_LANGUAGE)
    if english is None:
        return
    for language, lesson in lessons.items():
        file = f"{module}/lesson.{language}.md"
        if [step.id for step in lesson.steps] != [step.id for step in english.steps]:
            problems.add(file, 1, "steps", "are not the steps of the English lesson")
        if lesson.revision != english.revision:
            problems.add(file, 1, "revision", f"is not the English one, {english.revision}")
