"""Runs of the practice crack: the crack, every act with its decisions, and what was behind it.

A run is kept so that the model gives the same numbers again: the whole crack as it was given to it
and every decision in order. What stands in the columns of JSON is versioned where it is written.
"""

import json
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, func, insert, select, update

from app.workbook.tables import practice_run


@dataclass(frozen=True, slots=True)
class PracticeRun:
    """One run. ``crack`` is a set crack's name, or "" where ``job_id`` names the job."""

    id: str
    person_id: str
    crack: str
    job_id: str | None
    setup: dict[str, Any]
    acts: dict[str, Any]
    acts_count: int
    started_at: datetime
    finished_at: datetime | None = None
    is_done: bool = False
    filled_share: float | None = None
    result: dict[str, Any] | None = None

    @property
    def is_open(self) -> bool:
        """Whether the wall is still closed."""
        return self.finished_at is None


def keep_run(connection: Connection, new: PracticeRun) -> None:
    """Keep a new run, before its first act."""
    connection.execute(
        insert(practice_run).values(
            id=new.id,
            person_id=new.person_id,
            crack=new.crack,
            job_id=new.job_id,
            setup=_text(new.setup),
            acts=_text(new.acts),
            acts_count=new.acts_count,
            started_at=new.started_at.replace(tzinfo=None),
        )
    )


def run_by_id(connection: Connection, run_id: str) -> PracticeRun | None:
    """Return the run with this id, or None."""
    row = connection.execute(select(practice_run).where(practice_run.c.id == run_id)).first()
    return None if row is None else _run(row)


def open_run(
    connection: Connection, person_id: str, crack: str, job_id: str | None = None
) -> PracticeRun | None:
    """Return a person's newest run at a crack whose wall is still closed."""
    query = select(practice_run).where(
        practice_run.c.person_id == person_id,
        practice_run.c.crack == crack,
        practice_run.c.job_id.is_(None) if job_id is None else practice_run.c.job_id == job_id,
        practice_run.c.finished_at.is_(None),
    )
    row = connection.execute(query.order_by(practice_run.c.id.desc())).first()
    return None if row is None else _run(row)


def keep_acts(connection: Connection, run_id: str, count: int, acts: dict[str, Any]) -> bool:
    """Keep one act more, the ``count``-th; False if another request was quicker."""
    changed = connection.execute(
        update(practice_run)
        .where(
            practice_run.c.id == run_id,
            practice_run.c.acts_count == count - 1,
            practice_run.c.finished_at.is_(None),
        )
        .values(acts=_text(acts), acts_count=count)
    )
    return bool(changed.rowcount == 1)


def finish_run(
    connection: Connection,
    run: PracticeRun,
    result: dict[str, Any],
    filled_share: float,
    is_done: bool,
    now: datetime,
) -> bool:
    """Open the wall; False if it was opened or acted on meanwhile."""
    changed = connection.execute(
        update(practice_run)
        .where(
            practice_run.c.id == run.id,
            practice_run.c.acts_count == run.acts_count,
            practice_run.c.finished_at.is_(None),
        )
        .values(
            result=_text(result),
            filled_share=filled_share,
            is_done=is_done,
            finished_at=now.replace(tzinfo=None),
        )
    )
    return bool(changed.rowcount == 1)


@dataclass(frozen=True, slots=True)
class Tries:
    """How somebody fared at one set crack: walls opened, the best share, is it done."""

    opened: int
    best_share: float | None
    is_done: bool
    open_run_id: str | None


def tries_of(connection: Connection, person_id: str) -> dict[str, Tries]:
    """Return a person's tries by set crack; a crack never tried is left out."""
    c = practice_run.c
    query = select(
        c.crack,
        func.count(c.finished_at).label("opened"),
        func.max(c.filled_share).label("best"),
        func.max(c.is_done.cast(c.acts_count.type)).label("done"),
    ).where(c.person_id == person_id, c.crack != "")
    still_open = select(c.crack, func.max(c.id).label("id")).where(
        c.person_id == person_id, c.crack != "", c.finished_at.is_(None)
    )
    going = {row.crack: row.id for row in connection.execute(still_open.group_by(c.crack))}
    return {
        row.crack: Tries(row.opened, row.best, bool(row.done), going.get(row.crack))
        for row in connection.execute(query.group_by(c.crack))
    }


def done_count(connection: Connection, person_id: str) -> int:
    """Return how many set cracks a person has filled as well as the book does."""
    c = practice_run.c
    query = select(func.count(c.crack.distinct())).where(
        c.person_id == person_id, c.is_done, c.crack != ""
    )
    return int(connection.scalar(query) or 0)


def _text(value: dict[str, Any]) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def _run(row: Row[Any]) -> PracticeRun:
    values = dict(row._mapping)
    values["setup"] = json.loads(values["setup"])
    values["acts"] = json.loads(values["acts"])
    values["result"] = json.loads(values["result"]) if values["result"] else None
    values["is_done"] = bool(values["is_done"])
    return PracticeRun(**values)
