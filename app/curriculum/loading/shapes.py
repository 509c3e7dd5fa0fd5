"""Data from a content file into a model, every misfit noted with its file, line and key."""

from __future__ import annotations

from pathlib import Path
from typing import Any, TypeVar

from pydantic import ValidationError

from app.curriculum.loading.problems import Collector
from app.curriculum.loading.yaml_lines import Located, PathInFile, YamlRefused, read_yaml
from app.curriculum.text import Frozen

Model = TypeVar("Model", bound=Frozen)


class ContentFile:
    """One YAML file while it is being read: where it stands and where its problems go."""

    def __init__(self, file: str, located: Located, problems: Collector) -> None:
        self.file = file
        self.located = located
        self.problems = problems

    def note(self, path: PathInFile, sentence: str) -> None:
        """Note a problem at a path in this file."""
        key = ".".join(str(part) for part in path) or "file"
        self.problems.add(self.file, self.located.line_of(path), key, sentence)

    def shaped(self, model: type[Model], data: Any, path: PathInFile = ()) -> Model | None:
        """`data` as the model, or None with every misfit noted."""
        if not isinstance(data, dict):
            self.note(path, "keys and values are expected here")
            return None
        try:
            return model.model_validate(data)
        except ValidationError as error:
            for one in error.errors(include_url=False):
                where = tuple(part for part in one["loc"] if part != "[key]")
                self.note((*path, *where), _sentence(one["type"], one["msg"], one.get("ctx")))
            return None

    def listed(self, key: str) -> list[tuple[PathInFile, Any]]:
        """The entries of the list at `key` with their paths; a problem and nothing if no list."""
        data = self.located.data
        entries = data.get(key) if isinstance(data, dict) else None
        if not isinstance(entries, tuple):
            self.note((key,), "a list is expected here")
            return []
        return [((key, index), entry) for index, entry in enumerate(entries)]

    def only_keys(self, *keys: str) -> None:
        """Note every top-level key that is not one of `keys`, and every one that is missing."""
        data = self.located.data if isinstance(self.located.data, dict) else {}
        for key in data:
            if key not in keys:
                self.note((key,), "is not a known key")
        for key in keys:
            if key not in data:
                self.note((), f"the key {key} is missing")


def open_yaml(path: Path, root: Path, problems: Collector) -> ContentFile | None:
    """The YAML file with its lines, or None with the problem noted."""
    file = path.relative_to(root).as_posix()
    text = read_text(path, root, problems)
    if text is None:
        return None
    try:
        return ContentFile(file, read_yaml(text), problems)
    except YamlRefused as refused:
        problems.add(file, refused.line, "file", refused.sentence)
        return None


def read_text(path: Path, root: Path, problems: Collector) -> str | None:
    """The file's text, or None with the problem noted."""
    file = path.relative_to(root).as_posix()
    try:
        return path.read_text(encoding="utf-8")
    except FileNotFoundError:
        problems.add(file, 1, "file", "is missing")
    except UnicodeDecodeError:
        problems.add(file, 1, "file", "is not UTF-8 text")
    return None


def _sentence(kind: str, message: str, context: dict[str, Any] | None) -> str:
    if kind == "missing":
        return "is missing"
    if kind == "extra_forbidden":
        return "is not a known key"
    if kind == "value_error":
        return message.removeprefix("Value error, ")
    if kind == "literal_error" and context:
        return f"must be {context['expected']}"
    if kind == "string_pattern_mismatch":
        return "must be lower-case words joined by - (ids) or _ (names)"
    return message[0].lower() + message[1:]
