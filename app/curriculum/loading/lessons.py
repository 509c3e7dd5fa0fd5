"""A lesson file into a Lesson: every word, figure and caution checked, every problem noted."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Annotated, get_args

from pydantic import Field

from app.curriculum.loading import lesson_text
from app.curriculum.loading.fact_check import mismatch
from app.curriculum.loading.facts import FactRefused, bare_digits, facts_in, has_digit, plain_text
from app.curriculum.loading.figures import FigureRefused, figure_html
from app.curriculum.loading.lesson_text import PARTS, Prose, RawLesson, RawStep
from app.curriculum.loading.markdown import has_raw_html, render, render_line
from app.curriculum.loading.problems import Collector
from app.curriculum.loading.shapes import ContentFile, read_text
from app.curriculum.loading.yaml_lines import YamlRefused, read_yaml
from app.curriculum.model import Caution, Figure, Lesson, Part, Signal, Source, Step
from app.curriculum.text import Frozen

FEWEST_STEPS, MOST_STEPS, FEWEST_FIGURES = 6, 12, 2
COME_FIRST = ("engineer", "product data sheet", "safety data sheet", "local codes")
_NOTHING = Part(html="", plain="")


class FrontMatter(Frozen):
    """The head of a lesson file."""

    module: str
    title: Annotated[str, Field(min_length=1)]
    summary: Annotated[str, Field(min_length=1)]
    minutes: Annotated[int, Field(ge=1, le=120)]
    revision: Annotated[int, Field(ge=1)]


def load_lesson(
    path: Path, root: Path, sources: Mapping[str, Source], problems: Collector
) -> Lesson | None:
    """The lesson at `path` (lesson.<language>.md), or None with the problems noted."""
    text = read_text(path, root, problems)
    if text is None:
        return None
    file = path.relative_to(root).as_posix()
    raw = lesson_text.take_apart(text, file, problems)
    if raw is None:
        return None
    return _LessonLoader(path, file, sources, problems).load(raw)


class _LessonLoader:
    def __init__(
        self, path: Path, file: str, sources: Mapping[str, Source], problems: Collector
    ) -> None:
        self.path = path
        self.file = file
        self.sources = sources
        self.problems = problems
        self.language = path.name.split(".")[1]

    def note(self, line: int, key: str, sentence: str) -> None:
        self.problems.add(self.file, line, key, sentence)

    def load(self, raw: RawLesson) -> Lesson | None:
        front = self.front_matter(raw.front)
        introduction = self.prose(raw.introduction, "intro", "introduction")
        if self.language == "en":
            self.says_who_comes_first(raw.introduction)
        steps = tuple(self.step(one, number) for number, one in enumerate(raw.steps, 1))
        self.count(raw, steps)
        if front is None:
            return None
        return Lesson(
            language=self.language,
            title=front.title,
            summary=front.summary,
            minutes=front.minutes,
            revision=front.revision,
            introduction=introduction,
            steps=steps,
        )

    def front_matter(self, raw: Prose) -> FrontMatter | None:
        try:
            located = read_yaml(raw.text(), raw.line)
        except YamlRefused as refused:
            self.note(refused.line, "front matter", refused.sentence)
            return None
        content = ContentFile(self.file, located, self.problems)
        front = content.shaped(FrontMatter, located.data)
        if front is not None:
            if front.module != self.path.parent.name:
                content.note(("module",), f"is {front.module} in the folder of another module")
            for key in ("title", "summary"):
                if has_digit(getattr(front, key)):
                    content.note((key,), "holds a number; numbers stand in the steps")
        return front

    def says_who_comes_first(self, raw: Prose) -> None:
        said = " ".join(raw.text().lower().split())
        for words in COME_FIRST:
            if words not in said:
                self.note(raw.line, "introduction", f"must say who comes first: {words}")

    def count(self, raw: RawLesson, steps: tuple[Step, ...]) -> None:
        if not FEWEST_STEPS <= len(steps) <= MOST_STEPS:
            wanted = f"{FEWEST_STEPS} to {MOST_STEPS} steps are wanted, {len(steps)} are here"
            self.note(1, "steps", wanted)
        figures = sum(len(one.figures) for one in raw.steps)
        if figures < FEWEST_FIGURES:
            self.note(1, "figures", f"at least {FEWEST_FIGURES} are wanted, {figures} are here")
        seen: set[str] = set()
        for one in raw.steps:
            if one.id in seen or one.id == "intro":
                self.note(one.line, one.id, "this step id stands twice")
            seen.add(one.id)

    def step(self, raw: RawStep, number: int) -> Step:
        if has_digit(raw.title):
            self.note(raw.line, raw.id, "the title holds a number; numbers stand in the parts")
        for heading, name in PARTS.items():
            if name not in raw.parts:
                self.note(raw.line, f"{raw.id}.{name}", f"the part {heading} is missing")
        parts = {
            name: self.prose(raw.parts[name], raw.id, name) if name in raw.parts else _NOTHING
            for name in PARTS.values()
        }
        for extra in raw.figures[1:]:
            self.note(extra.line, f"{raw.id}.figure", "a step has one figure at most")
        return Step(
            id=raw.id,
            number=number,
            title=raw.title,
            figure=self.figure(raw.figures[0], raw.id) if raw.figures else None,
            cautions=tuple(
                made for one in raw.cautions if (made := self.caution(one, raw.id)) is not None
            ),
            **parts,
        )

    def prose(self, raw: Prose, step_id: str, name: str, *, line: bool = False) -> Part:
        text = raw.text()
        key = f"{step_id}.{name}"
        if not text.strip():
            self.note(raw.line, key, "is empty")
            return _NOTHING
        if has_raw_html(text):
            self.note(raw.line, key, "holds an HTML tag; only Markdown is allowed")
        try:
            self.check_figures(raw, text, key)
            return render_line(text, step_id) if line else render(text, step_id)
        except FactRefused as refused:
            self.note(raw.line, key, str(refused))
            return _NOTHING

    def check_figures(self, raw: Prose, text: str, key: str) -> None:
        for place in bare_digits(text):
            here = text[place : place + 12].split("\n")[0]
            sentence = f"a bare number ({here!r}): write {{{{metric | US | source}}}}"
            self.note(raw.line_at(place), key, sentence)
        for place, fact in facts_in(text):
            line = raw.line_at(place)
            if fact.source_id not in self.sources:
                self.note(line, key, f"there is no source {fact.source_id} in sources.yaml")
            wrong = mismatch(fact.metric, fact.us) if fact.us is not None else None
            if wrong:
                self.note(line, key, wrong)

    def caution(self, raw: Prose, step_id: str) -> Caution | None:
        signal, _, words = (part.strip() for part in raw.text().partition("|"))
        if signal not in get_args(Signal) or not words:
            sentence = f"reads: caution: WORD | text, the word one of {', '.join(get_args(Signal))}"
            self.note(raw.line, f"{step_id}.caution", sentence)
            return None
        part = self.prose(Prose(raw.line, [words]), step_id, "caution", line=True)
        return Caution.model_validate({"signal": signal, "text": part})

    def figure(self, raw: Prose, step_id: str) -> Figure | None:
        key = f"{step_id}.figure"
        file, _, rest = (part.strip() for part in raw.text().partition("|"))
        caption, bar, description = lesson_text.split_outside_marks(rest)
        if not (file and caption and bar and description):
            self.note(raw.line, key, "reads: figure: file.svg | caption | description")
            return None
        shown = self.prose(Prose(raw.line, [caption]), step_id, "figure", line=True)
        told = self.prose(Prose(raw.line, [description]), step_id, "figure", line=True)
        path = self.path.parent / "figures" / file
        if "/" in file or not path.is_file():
            self.note(raw.line, key, f"there is no figures/{file}")
            return None
        if _NOTHING in (shown, told):
            return None
        try:
            words = plain_text(caption), plain_text(description)
            svg = figure_html(path.read_text(encoding="utf-8"), *words, prefix=step_id)
        except FigureRefused as refused:
            self.note(raw.line, key, f"figures/{file}: {refused}")
            return None
        return Figure(file=file, caption=shown, description=words[1], svg=svg)
