"""PURE. Which revision of a module is in force on a day, and which was the last major one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from typing import Literal


@dataclass(frozen=True)
class Revision:
    """A revision of a module. `major`: what people must do changed, so they train again."""

    number: int
    in_force_on: date
    kind: Literal["editorial", "major"]


class RevisionsRefused(ValueError):
    """The list of revisions contradicts itself."""


def revision_in_force(revisions: Sequence[Revision], on: date) -> Revision | None:
    """The newest revision in force on that day (its first day included); None before the first.

    Raises RevisionsRefused where a number or a date goes back, or a number stands twice.
    """
    begun = [revision for revision in _in_order(revisions) if revision.in_force_on <= on]
    return begun[-1] if begun else None


def least_revision(revisions: Sequence[Revision], on: date) -> Revision | None:
    """The oldest revision that training may be at to need no update on that day.

    That is the last major one in force; before any major one, the first. None before the first.
    """
    begun = [revision for revision in _in_order(revisions) if revision.in_force_on <= on]
    majors = [revision for revision in begun if revision.kind == "major"]
    if majors:
        return majors[-1]
    return begun[0] if begun else None


def _in_order(revisions: Sequence[Revision]) -> list[Revision]:
    ordered = sorted(revisions, key=lambda revision: revision.number)
    for older, newer in pairwise(ordered):
        if older.number == newer.number:
            raise RevisionsRefused(f"revision {newer.number} stands twice")
        if newer.in_force_on < older.in_force_on:
            raise RevisionsRefused(f"revision {newer.number} begins before {older.number}")
    return ordered
