"""The form of a lesson file: front matter, introduction, steps with their lines and four parts.

Only the form is read here; what the words and figures must hold is checked in lessons.py.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from app.curriculum.loading.problems import Collector

PARTS = {"Do": "do", "Check": "check", "Stop if": "stop_if", "Why": "why"}
_STEP = re.compile(r"^## +([a-z0-9]+(?:-[a-z0-9]+)*) *\| *(\S.*)$")
_PART = re.compile(r"^### +(.*\S)\s*$")
_LINE = re.compile(r"^(figure|caution): *(.*)$")


@dataclass
class Prose:
    """A stretch of text and the line of the file it begins on."""

    line: int
    lines: list[str] = field(default_factory=list)

    def text(self) -> str:
        """The stretch as one text; its first line is `line`."""
        return "\n".join(self.lines)

    def line_at(self, place: int) -> int:
        """The line of the file of a character of `text()`."""
        return self.line + self.text()[:place].count("\n")


@dataclass
class RawStep:
    """A step as written: its heading, the figure and caution lines, the parts found."""

    id: str
    title: str
    line: int
    figures: list[Prose] = field(default_factory=list)
    cautions: list[Prose] = field(default_factory=list)
    parts: dict[str, Prose] = field(default_factory=dict)


@dataclass
class RawLesson:
    """A lesson file taken apart."""

    front: Prose
    introduction: Prose
    steps: list[RawStep]


def take_apart(text: str, file: str, problems: Collector) -> RawLesson | None:
    """The lesson's pieces; None with a problem if there is no front matter."""
    lines = text.splitlines()
    ends = [number for number, line in enumerate(lines) if line.rstrip() == "---"]
    if len(ends) < 2 or ends[0] != 0:
        problems.add(file, 1, "file", "begins without front matter between two lines of ---")
        return None
    lesson = RawLesson(Prose(2, lines[1 : ends[1]]), Prose(ends[1] + 2), [])
    _Reader(lesson, file, problems).read(lines[ends[1] + 1 :], ends[1] + 2)
    return lesson


def split_outside_marks(text: str) -> tuple[str, str, str]:
    """Caption, bar and description; a bar inside a figure-of-fact mark does not split."""
    depth = 0
    for place, character in enumerate(text):
        depth += text.startswith("{{", place) - text.startswith("}}", place)
        if character == "|" and depth <= 0:
            return text[:place].strip(), "|", text[place + 1 :].strip()
    return text.strip(), "", ""


class _Reader:
    """Goes down the lines once and hangs each on the piece it belongs to."""

    def __init__(self, lesson: RawLesson, file: str, problems: Collector) -> None:
        self.lesson = lesson
        self.file = file
        self.problems = problems
        self.open: Prose | None = lesson.introduction

    def read(self, lines: list[str], first: int) -> None:
        for number, line in enumerate(lines, first):
            if line.startswith("## "):
                self.step(line, number)
            elif line.startswith("### "):
                self.part(line, number)
            elif self.open is not None:
                self.open.lines.append(line)
            else:
                self.after_heading(line, number)

    def step(self, line: str, number: int) -> None:
        match = _STEP.match(line)
        if match is None:
            self.problems.add(self.file, number, "step", "a step reads: ## step-id | Title")
            return
        self.lesson.steps.append(RawStep(match.group(1), match.group(2).strip(), number))
        self.open = None

    def part(self, line: str, number: int) -> None:
        match = _PART.match(line)
        name = PARTS.get(match.group(1)) if match else None
        if name is None or not self.lesson.steps:
            self.problems.add(self.file, number, "part", f"a part is one of {', '.join(PARTS)}")
            return
        step = self.lesson.steps[-1]
        if name in step.parts:
            self.problems.add(self.file, number, f"{step.id}.{name}", "stands twice")
        self.open = step.parts[name] = Prose(number + 1)

    def after_heading(self, line: str, number: int) -> None:
        match = _LINE.match(line)
        step = self.lesson.steps[-1]
        if match is not None:
            target = step.figures if match.group(1) == "figure" else step.cautions
            target.append(Prose(number, [match.group(2)]))
        elif line.strip():
            sentence = "between a step's heading and its parts only figure: and caution: may stand"
            self.problems.add(self.file, number, step.id, sentence)
