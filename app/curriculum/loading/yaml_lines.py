"""YAML read exactly and with the line of every key.

Differences from the usual reading, all to refuse surprises: decimals become Fractions, only
true and false are booleans (not yes, no, on, off), `1:1` stays text, a key given twice is
refused, and lists become tuples.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

import yaml

PathInFile = tuple[str | int, ...]
# The same reader written in C, where the library was built with it: five times as quick.
SAFE_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_WHOLE = re.compile(r"^[-+]?\d+$")
_DECIMAL = re.compile(r"^[-+]?(\d+\.\d*|\.\d+)$")


class YamlRefused(ValueError):
    """The text is not YAML we take; `line` starts at 1."""

    def __init__(self, line: int, sentence: str) -> None:
        super().__init__(sentence)
        self.line = line
        self.sentence = sentence


@dataclass
class Located:
    """The data and, for each path in it (`("questions", 0, "text")`), its line in the file."""

    data: Any
    lines: dict[PathInFile, int] = field(default_factory=dict)

    def line_of(self, path: PathInFile) -> int:
        """The line of the longest part of `path` that stands in the file."""
        for length in range(len(path), -1, -1):
            if path[:length] in self.lines:
                return self.lines[path[:length]]
        return 1


def read_yaml(text: str, first_line: int = 1) -> Located:
    """The data with its lines; `first_line` is where `text` starts in its file."""
    try:
        node = yaml.compose(text, Loader=SAFE_LOADER)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark
        line = first_line + (mark.line if mark else 0)
        raise YamlRefused(line, f"not readable as YAML: {error.problem}") from None
    except yaml.YAMLError as error:
        raise YamlRefused(first_line, f"not readable as YAML: {error}") from None
    located = Located(None)
    located.data = None if node is None else _build(node, (), located.lines, first_line)
    return located


def _build(node: yaml.Node, path: PathInFile, lines: dict[PathInFile, int], first: int) -> Any:
    lines.setdefault(path, first + node.start_mark.line)
    if isinstance(node, yaml.MappingNode):
        return _build_mapping(node, path, lines, first)
    if isinstance(node, yaml.SequenceNode):
        return tuple(
            _build(child, (*path, index), lines, first) for index, child in enumerate(node.value)
        )
    return _scalar(node)


def _build_mapping(
    node: yaml.MappingNode, path: PathInFile, lines: dict[PathInFile, int], first: int
) -> dict[Any, Any]:
    built: dict[Any, Any] = {}
    for key_node, value_node in node.value:
        line = first + key_node.start_mark.line
        key = key_node.value
        if not isinstance(key, str) or key == "<<":
            raise YamlRefused(line, "a key must be a plain word")
        if key in built:
            raise YamlRefused(line, f"the key {key} stands twice")
        lines[(*path, key)] = line
        built[key] = _build(value_node, (*path, key), lines, first)
    return built


def _scalar(node: yaml.Node) -> Any:
    text = node.value
    if getattr(node, "style", None) in ("'", '"', "|", ">"):
        return text
    if text in ("true", "false"):
        return text == "true"
    if text in ("", "~", "null"):
        return None
    if _WHOLE.match(text):
        return int(text)
    if _DECIMAL.match(text):
        return Fraction(text)
    return text
