"""PURE. Two revisions of a text line by line, for somebody who has to approve the newer one."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import Literal

Mark = Literal["same", "gone", "new", "skipped"]
AROUND = 1  # unchanged lines shown before and after a change


@dataclass(frozen=True, slots=True)
class Line:
    """One line: the same in both, gone, new; or a mark that unchanged lines were left out."""

    mark: Mark
    text: str = ""


@dataclass(frozen=True, slots=True)
class FileDifference:
    """A file that differs; is_new, is_gone: only one of the two has it."""

    path: str
    lines: tuple[Line, ...]
    is_new: bool = False
    is_gone: bool = False


def differences(old: Mapping[str, bytes], new: Mapping[str, bytes]) -> list[FileDifference]:
    """Every file that is not the same in both, in the order of their paths.

    old, new: files by path. Bytes that are no text are shown with marks in their place.
    Example: ``differences({}, {"a.md": b"x"})[0].is_new``.
    """
    return [
        FileDifference(
            path,
            tuple(_lines(_text(old.get(path, b"")), _text(new.get(path, b"")))),
            is_new=path not in old,
            is_gone=path not in new,
        )
        for path in sorted({*old, *new})
        if old.get(path) != new.get(path)
    ]


def _text(data: bytes) -> list[str]:
    return data.decode(errors="replace").splitlines()


def _lines(old: list[str], new: list[str]) -> Iterator[Line]:
    for tag, i, i_end, j, j_end in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if tag == "equal":
            yield from _kept(old[i:i_end], is_first=i == 0, is_last=i_end == len(old))
        yield from (Line("gone", text) for text in old[i:i_end] if tag != "equal")
        yield from (Line("new", text) for text in new[j:j_end] if tag != "equal")


def _kept(lines: list[str], *, is_first: bool, is_last: bool) -> Iterator[Line]:
    """Only the unchanged lines next to a change."""
    before = 0 if is_first else AROUND
    after = 0 if is_last else AROUND
    if len(lines) <= before + after:
        yield from (Line("same", text) for text in lines)
        return
    yield from (Line("same", text) for text in lines[:before])
    yield Line("skipped")
    yield from (Line("same", text) for text in lines[len(lines) - after :])
