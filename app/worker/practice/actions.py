"""Practising: begin a run, act once, open the wall. Read, compute, keep; no Flask here.

The model works outside the writing transaction, so that nobody waits for it; what it gives is kept
only if no other request got ahead meanwhile.
"""

from dataclasses import asdict
from datetime import datetime
from typing import Any

from sqlalchemy import Connection

from app.database import writing
from app.ids import new_id
from app.trade.errors import Refusal
from app.trade.filling.crack import Crack
from app.workbook.practice_runs import (
    PracticeRun,
    finish_run,
    keep_acts,
    keep_run,
    open_run,
    run_by_id,
)
from app.worker.practice.acts import MOST_ACTS, Act, TooManyActs, decisions_of
from app.worker.practice.live import LIVE
from app.worker.practice.opening import book_side, order_of, result_json, side_of
from app.worker.practice.papers import (
    ML_PER_M3,
    Done,
    Happened,
    Papers,
    WallNow,
    as_json,
    fresh_papers,
    papers_from,
)
from app.worker.practice.setup import crack_from, setup_of


class NotThisNumber(Refusal):
    """An act with a number from the future: the page is not of this run."""

    template = "This page is not up to date. Look at the wall again."


def begin(
    connection: Connection, person_id: str, crack: Crack, name: str, now: datetime
) -> PracticeRun:
    """Begin a run at a set crack, or go on with the one that is open."""
    found = open_run(connection, person_id, name)
    return found or _keep_new(connection, person_id, crack, name, None, new_id(), now)


def begin_at_job(
    connection: Connection, person_id: str, crack: Crack, job_id: str, run_id: str, now: datetime
) -> PracticeRun:
    """Begin a run at a job's crack under the id that the form carried; sent twice it is one."""
    found = run_by_id(connection, run_id)
    if found is not None and found.person_id == person_id:
        return found
    return _keep_new(connection, person_id, crack, "", job_id, new_id() if found else run_id, now)


def _keep_new(
    connection: Connection,
    person_id: str,
    crack: Crack,
    name: str,
    job_id: str | None,
    run_id: str,
    now: datetime,
) -> PracticeRun:
    acts = as_json(fresh_papers(crack.pump.pressure_pa))
    run = PracticeRun(run_id, person_id, name, job_id, setup_of(crack), acts, 0, now)
    keep_run(connection, run)
    return run


def make_ready(run: PracticeRun) -> None:
    """Load the model and lay the crack out now, so that the first act need not wait for it."""
    decisions = papers_from(run.acts).decisions
    filling = LIVE.take(run.id, crack_from(run.setup), decisions)
    LIVE.put_back(run.id, filling, len(decisions))


def act_once(run: PracticeRun, act: Act, number: int) -> bool:
    """Do one act and keep it. ``number`` is the act's own, from 1; False if it was done before.

    Errors: the refusals of decisions_of; TooManyActs; NotThisNumber.
    """
    if number <= run.acts_count or not run.is_open:
        return False
    if number != run.acts_count + 1:
        raise NotThisNumber
    if number > MOST_ACTS:
        raise TooManyActs(most=MOST_ACTS)
    papers = papers_from(run.acts)
    crack = crack_from(run.setup)
    decisions = decisions_of(act, papers.now, len(crack.ports))
    filling = LIVE.take(run.id, crack, papers.decisions)
    events = [event for decision in decisions for event in filling.apply(decision)]
    seen, behind = filling.seen, filling.behind
    done = Done(
        act=act,
        decisions=decisions,
        from_s=papers.now.time_s,
        to_s=seen.time_s,
        events=tuple(Happened(e.kind, e.at_s, e.number, e.value) for e in events),
        filled=behind.filled_share,
        used_ml=round(seen.used_m3 * ML_PER_M3, 3),
        set_pa=seen.set_pa,
        showing=tuple(seen.showing),
    )
    after = papers.with_act(done, WallNow(**asdict(seen)))
    with writing() as connection:
        is_kept = keep_acts(connection, run.id, number, as_json(after))
    if is_kept:  # else another request acted first, and this crack is ahead of the papers
        LIVE.put_back(run.id, filling, len(after.decisions))
    return is_kept


def open_wall(run: PracticeRun, now: datetime) -> bool:
    """Open the wall: what is behind it, beside the same crack by the book. False if it is open."""
    if not run.is_open:
        return False
    papers, crack = papers_from(run.acts), crack_from(run.setup)
    filling = LIVE.take(run.id, crack, papers.decisions)
    you, book = side_of(filling), book_side(run.setup)
    result = result_json(you, book, order_of(crack))
    with writing() as connection:
        return finish_run(connection, run, result, you["filled"], _is_done(papers, you, book), now)


# A share this much below the book's is as good as the book's: models and hands differ by as much.
AS_GOOD = 0.03


def _is_done(papers: Papers, you: dict[str, Any], book: dict[str, Any]) -> bool:
    is_over = any(e.kind == "port-over-limit" for one in papers.done for e in one.events)
    return not is_over and you["filled"] > 0 and you["filled"] >= book["filled"] - AS_GOOD
