"""PURE. Figure-of-fact marks: `{{150 mm | 6 in | source}}`, or `{{1:1 | source}}` where the same.

The mark becomes a link to its source in the card's "Says who?" list, with both unit systems in
it. Both are shown as "150 mm / 6 in" until a stylesheet hides one; no script is needed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

MARK = re.compile(r"\{\{(.*?)\}\}", re.DOTALL)
_DIGIT = re.compile(r"\d")
_LIST_NUMBER = re.compile(r"^(\s*)\d+\.(?=\s)", re.MULTILINE)


class FactRefused(ValueError):
    """The mark is not written as it should be."""


@dataclass(frozen=True)
class Fact:
    """A figure in both unit systems (`us` is None where it is the same) and its source's id."""

    metric: str
    us: str | None
    source_id: str

    def plain(self) -> str:
        """The figure in plain words: "150 mm (6 in)"."""
        return self.metric if self.us is None else f"{self.metric} ({self.us})"


def read_fact(inside: str) -> Fact:
    """The fact written between the braces; raises FactRefused.

    Example: read_fact("1:1 | seal-ratio") == Fact("1:1", None, "seal-ratio").
    """
    parts = [" ".join(part.split()) for part in inside.split("|")]
    if len(parts) not in (2, 3) or not all(parts):
        raise FactRefused(
            f"{{{{{inside}}}}} must be {{{{metric | US | source}}}} or {{{{value | source}}}}"
        )
    us = parts[1] if len(parts) == 3 else None
    return Fact(parts[0], us, parts[-1])


def facts_in(text: str) -> Iterator[tuple[int, Fact]]:
    """Each mark's place in `text` and its fact, in reading order; raises FactRefused."""
    for match in MARK.finditer(text):
        yield match.start(), read_fact(match.group(1))


def without_marks(text: str) -> str:
    """`text` with every mark blanked out, each character still at its own place."""
    return MARK.sub(lambda match: re.sub(r"[^\n]", " ", match.group()), text)


def bare_digits(text: str) -> list[int]:
    """The places of the first digit of every bare number, the numbers of a list left out."""
    blanked = without_marks(text)
    blanked = _LIST_NUMBER.sub(lambda match: " " * len(match.group()), blanked)
    return [match.start() for match in re.finditer(r"\d[\d.,/]*", blanked)]


def plain_text(text: str) -> str:
    """`text` with each mark replaced by its plain words."""
    return MARK.sub(lambda match: read_fact(match.group(1)).plain(), text)


def metric_text(text: str) -> str:
    """`text` with each mark replaced by its metric form only, as one reader reads it."""
    return MARK.sub(lambda match: read_fact(match.group(1)).metric, text)


def has_digit(text: str) -> bool:
    """Whether a digit stands anywhere in `text`."""
    return bool(_DIGIT.search(text))
