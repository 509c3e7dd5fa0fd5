"""What is wrong with the content, all of it at once, each with its file, line and key."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, order=True)
class Problem:
    """One thing to mend: `file` is relative to the content folder, `line` starts at 1."""

    file: str
    line: int
    key: str
    sentence: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}: {self.key}: {self.sentence}"


class ContentErrors(ValueError):
    """The content cannot be used; `problems` lists everything found, in file order."""

    def __init__(self, problems: list[Problem]) -> None:
        self.problems = tuple(sorted(set(problems)))
        lines = "\n".join(str(problem) for problem in self.problems)
        count = len(self.problems)
        total = "1 problem" if count == 1 else f"{count} problems"
        self.sentence = f"{lines}\n{total} in the content."
        super().__init__(self.sentence)


class Collector:
    """Takes problems while reading goes on, so that one run shows them all."""

    def __init__(self) -> None:
        self.found: list[Problem] = []

    def add(self, file: str, line: int, key: str, sentence: str) -> None:
        """Note a problem and go on."""
        self.found.append(Problem(file, line, key, sentence))

    def raise_if_any(self) -> None:
        """Raise ContentErrors with all of them, if there are any."""
        if self.found:
            raise ContentErrors(self.found)
