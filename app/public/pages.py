"""What the public pages show, ready to print. No Flask here."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import groupby

from app.curriculum.model import Source
from app.curriculum.text import Text

CONFIDENCES = ("published", "common practice", "from memory")


@dataclass(frozen=True, slots=True)
class SourceRow:
    """One entry of the sources page; ``id`` is also its anchor."""

    id: str
    title: Text
    where: Text | str
    is_restated: bool
    note: Text | None


def source_groups(sources: Mapping[str, Source]) -> list[tuple[str, list[SourceRow]]]:
    """Return the sources by confidence, the surest first, in the order of the file within each."""
    ordered = sorted(sources.items(), key=lambda pair: CONFIDENCES.index(pair[1].confidence))
    return [
        (confidence, [_row(name, source) for name, source in pairs])
        for confidence, pairs in groupby(ordered, key=lambda pair: pair[1].confidence)
    ]


def _row(name: str, source: Source) -> SourceRow:
    return SourceRow(name, source.title, source.where, source.restated, source.note)
