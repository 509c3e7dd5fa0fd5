"""The set cracks, a run, the opened wall. HTTP only: parse, call, answer."""

from flask import abort, flash, redirect, render_template, request, url_for
from flask_babel import gettext
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.database import reading, writing
from app.trade.errors import Refusal
from app.trade.set_cracks import SET_CRACKS, SetCrack
from app.web.now import now
from app.web.who import signed_in
from app.workbook.jobs import all_jobs, job_by_id
from app.workbook.practice_runs import PracticeRun, run_by_id, tries_of
from app.worker.practice import job_views  # noqa: F401  (registers the jobs' cracks)
from app.worker.practice.actions import act_once, begin, make_ready, open_wall
from app.worker.practice.acts import Act
from app.worker.practice.blueprint import practice
from app.worker.practice.facts import facts_of
from app.worker.practice.list_page import crack_rows
from app.worker.practice.opened_page import opened_page
from app.worker.practice.setup import UnknownVersion, crack_from
from app.worker.practice.wall_page import wall_page
from app.worker.practice.words import refused, teaches, title_of

Page = str | tuple[str, int]


@practice.get("")
def cracks() -> str:
    """Show the set cracks, what each teaches, and how far the person is."""
    with reading() as connection:
        tries = tries_of(connection, signed_in().id)
        jobs = all_jobs(connection)
    rows = crack_rows(tries)
    done = sum(row.is_done for row in rows)
    return render_template("practice/cracks.html", rows=rows, done=done, jobs=jobs)


@practice.get("/<crack>")
def crack(crack: str) -> str:
    """Show what a job card would say about a set crack, and the button to begin."""
    found = _set_crack_or_404(crack)
    with reading() as connection:
        tried = tries_of(connection, signed_in().id).get(crack)
    return render_template(
        "practice/crack.html",
        found=found,
        title=title_of(crack),
        teaches=teaches(crack),
        facts=facts_of(found.crack),
        tried=tried,
    )


@practice.post("/<crack>")
def start(crack: str) -> Response:
    """Begin a run, or go on with the one that is open."""
    found = _set_crack_or_404(crack)
    with writing() as connection:
        run = begin(connection, signed_in().id, found.crack, crack, now())
    make_ready(run)
    return redirect(url_for("practice.run", run=run.id), 303)


@practice.get("/runs/<run>")
def run(run: str) -> Response | str:
    """Show the wall as a hand sees it."""
    found = _own_or_404(run)
    if not found.is_open:
        return redirect(url_for("practice.opened", run=run))
    return _wall(found, _whole(request.args.get("port", "")))


@practice.post("/runs/<run>")
def act(run: str) -> Response | Page:
    """Do one act, and show what a hand sees of it."""
    found = _own_or_404(run)
    port = _whole(request.form.get("port", ""))
    asked = Act(request.form.get("act", ""), port)
    try:
        act_once(found, asked, _whole(request.form.get("number", "")))
    except Refusal as refusal:
        return _wall(found, port, refused(refusal)), 422
    return redirect(url_for("practice.run", run=run, port=port or None, _anchor="said"), 303)


@practice.post("/runs/<run>/opened")
def open_it(run: str) -> Response:
    """Open the wall; once open it stays so."""
    found = _own_or_404(run)
    if not open_wall(found, now()) and _own_or_404(run).is_open:
        flash(_("Something was done at this wall meanwhile. Look at it again."))
        return redirect(url_for("practice.run", run=run), 303)
    return redirect(url_for("practice.opened", run=run), 303)


@practice.get("/runs/<run>/opened")
def opened(run: str) -> Response | str:
    """Show what was behind the wall, beside the same crack by the book."""
    found = _own_or_404(run)
    if found.is_open:
        return redirect(url_for("practice.run", run=run))
    page = opened_page(found)
    return render_template(
        "practice/opened.html",
        page=page,
        title=_title(found),
        facts=facts_of(page.crack),
        teaches=teaches(found.crack) if found.crack in SET_CRACKS else "",
        again=_where_to_begin(found),
    )


def _where_to_begin(found: PracticeRun) -> str:
    if found.job_id:
        return url_for("practice.job", job=found.job_id)
    if found.crack in SET_CRACKS:
        return url_for("practice.crack", crack=found.crack)
    return url_for("practice.cracks")


def _wall(found: PracticeRun, chosen: int, wrong: str = "") -> str:
    page = wall_page(found, chosen)
    return render_template(
        "practice/wall.html",
        page=page,
        title=_title(found),
        facts=facts_of(crack_from(found.setup)),
        wrong=wrong,
    )


@practice.errorhandler(UnknownVersion)
def too_old(unknown: UnknownVersion) -> Page:
    """A run that was kept by a program of another age: it can't be shown any more."""
    flash(gettext("That run was kept in a form this program does not know. Begin a new one."))
    return cracks(), 410


def _title(found: PracticeRun) -> str:
    if found.job_id:
        with reading() as connection:
            job = job_by_id(connection, found.job_id)
        return job.title if job else _("A job's crack")
    return title_of(found.crack) if found.crack in SET_CRACKS else _("A crack of an older set")


def _set_crack_or_404(name: str) -> SetCrack:
    found = SET_CRACKS.get(name)
    if found is None:
        abort(404)
    return found


def _own_or_404(run_id: str) -> PracticeRun:
    with reading() as connection:
        found = run_by_id(connection, run_id)
    if found is None or found.person_id != signed_in().id:
        abort(404)
    return found


def _whole(text: str) -> int:
    """A small whole number, or 0 for whatever else was sent: no port and no act has it."""
    return int(text) if text.isascii() and text.isdigit() and len(text) < 5 else 0
