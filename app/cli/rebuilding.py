"""Making the projection behind the board anew, with a bar for each part of the work."""

import os
import sys
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from flask import Flask
    from sqlalchemy import Engine

    from app.records.policy import Policy

_LABELS = {"work-out": "Working out standings", "write": "Writing them"}


def rebuild_for(app: "Flask", engine: "Engine | None" = None) -> str:
    """Rebuild by the approved rules; return the sentence that says so.

    engine: prepared, for a database that is not the server's own.
    """
    from app.database import db
    from app.records.projection.stored.rebuilding import rebuild

    with _Bars() as bars:
        done = rebuild(engine or db.engine, _policy(app), bars.tell, processes=os.cpu_count() or 1)
    if done.records == 0:
        return "There are no records yet; the board is ready for the first."
    return f"The board is ready: {done.records} records, {done.rows} rows."


def needs_rebuild(app: "Flask") -> bool:
    """Whether boards would have to be worked out from the records, by the rules in force today."""
    from app.database import reading
    from app.records.boards.board import why_not_projected

    with reading() as connection:
        return bool(why_not_projected(connection, _policy(app)))


def _policy(app: "Flask") -> "Policy":
    """The rules that pages go by today; those in the files where nothing is approved yet."""
    from app.records.policy import policy_from
    from app.web.texts import served_curriculum

    served = served_curriculum()
    files = app.extensions["lowport_curriculum"]
    return policy_from(served if served.qualifications else files)


class _Bars:
    """Shows how far a rebuild is; where nobody is watching only the labels are printed."""

    def __init__(self) -> None:
        self._what = ""
        self._bar: Any = None

    def tell(self, what: str, more: int, total: int) -> None:
        """For rebuild(): what is being done, how much more of it is done, and how much there is."""
        if what != self._what:
            self._finish()
            self._what = what
            self._bar = click.progressbar(length=total, label=_LABELS[what], file=sys.stderr)
            self._bar.__enter__()
        self._bar.update(more)

    def _finish(self) -> None:
        # Records that bear on everybody are nobody's own, so the parts don't quite add up to all.
        if self._bar is not None:
            self._bar.update(self._bar.length - self._bar.pos)
        self.__exit__()

    def __enter__(self) -> "_Bars":
        return self

    def __exit__(self, *_error: object) -> None:
        if self._bar is not None:
            self._bar.__exit__(None, None, None)
            self._bar = None
