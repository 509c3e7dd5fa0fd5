"""The set cracks as ports on the margin's crack, in order of difficulty."""

from collections.abc import Mapping
from dataclasses import dataclass

from flask import url_for
from flask_babel import gettext as _

from app.trade.set_cracks import SET_CRACKS
from app.workbook.practice_runs import Tries
from app.worker.practice.words import share, teaches, title_of


@dataclass(frozen=True, slots=True)
class CrackRow:
    """One set crack, ready for the list of ports."""

    title: str
    url: str
    state: str  # done | here | later
    word: str
    note: str
    is_done: bool


def crack_rows(tries: Mapping[str, Tries]) -> list[CrackRow]:
    """Every set crack; the first that is not done is the next."""
    ordered = sorted(SET_CRACKS.values(), key=lambda one: one.level)
    left = [one.name for one in ordered if not _is_done(tries, one.name)]
    rows = []
    for one in ordered:
        is_done = _is_done(tries, one.name)
        state = "done" if is_done else "here" if one.name == left[0] else "later"
        rows.append(
            CrackRow(
                title=f"{one.level}. {title_of(one.name)}",
                url=url_for("practice.crack", crack=one.name),
                state=state,
                word=_word(tries.get(one.name)),
                note=teaches(one.name),
                is_done=is_done,
            )
        )
    return rows


def _is_done(tries: Mapping[str, Tries], name: str) -> bool:
    return name in tries and tries[name].is_done


def _word(tried: Tries | None) -> str:
    """How far the person is with it."""
    if tried is None:
        return _("Not tried")
    if tried.best_share is None:
        return _("Begun")
    best = share(tried.best_share)
    if tried.is_done:
        return _("Done, %(share)s filled", share=best)
    return _("Not yet, %(share)s filled at best", share=best)
