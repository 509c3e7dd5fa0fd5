"""Free practice on the crack that was measured for a job: a spacing to try. HTTP only."""

from collections.abc import Mapping
from dataclasses import dataclass
from uuid import UUID

from flask import abort, redirect, render_template, request, url_for
from flask_babel import gettext as _
from flask_babel import lazy_gettext
from flask_wtf import FlaskForm
from werkzeug.wrappers import Response
from wtforms.validators import InputRequired

from app.database import reading, writing
from app.ids import new_id
from app.trade.errors import Refusal
from app.web.forms import QuantityField
from app.web.now import now
from app.web.telling import tell
from app.web.who import choice, signed_in
from app.workbook.card_plans import card_plan_of
from app.workbook.jobs import Job, job_by_id
from app.workbook.resins import Resin, resin_by_id
from app.worker.practice.actions import begin_at_job, make_ready
from app.worker.practice.blueprint import practice
from app.worker.practice.facts import facts_of
from app.worker.practice.job_crack import JobCrack, job_crack
from app.worker.practice.measured import NOTHING_TYPED
from app.worker.practice.words import assumption, shown

Page = str | tuple[str, int]


class SpacingForm(FlaskForm):
    """The spacing to try; it needs a unit, or is in the reader's own."""

    spacing = QuantityField(
        lazy_gettext("Port spacing to try"),
        "length",
        validators=[InputRequired(lazy_gettext("Type a spacing."))],
    )


@dataclass(frozen=True, slots=True)
class Wanted:
    """A job, its resin, and what its card holds of the crack."""

    job: Job
    resin: Resin
    typed: Mapping[str, str]

    def crack(self, spacing_mm: float, run_id: str) -> JobCrack:
        """The practice crack with ports at a spacing."""
        return job_crack(self.job, self.resin.values, spacing_mm, run_id, self.typed)


@practice.get("/jobs/<job>")
def job(job: str) -> Page:
    """Show the job's crack as the model takes it, and what is assumed."""
    wanted = _wanted_or_404(job)
    form = SpacingForm(spacing=shown(wanted.job.spacing_mm, "length"))
    return _page(wanted, form)


@practice.post("/jobs/<job>")
def start_at_job(job: str) -> Response | Page:
    """Begin a run with the spacing typed, or say why it can't be."""
    wanted = _wanted_or_404(job)
    form = SpacingForm()
    form.spacing.unit = {"metric": "mm", "us": "in"}[choice("units")]
    if not form.validate_on_submit():
        return _page(wanted, form), 422
    run_id = _run_id(request.form.get("run", ""))
    try:
        made = wanted.crack(float(form.spacing.quantity_data), run_id)
    except Refusal as refusal:
        form.spacing.errors = [tell(refusal)]
        return _page(wanted, form), 422
    with writing() as connection:
        run = begin_at_job(connection, signed_in().id, made.crack, wanted.job.id, run_id, now())
    make_ready(run)
    return redirect(url_for("practice.run", run=run.id), 303)


def _page(wanted: Wanted, form: SpacingForm) -> str:
    try:
        made: JobCrack | None = wanted.crack(wanted.job.spacing_mm, "0")
    except Refusal:
        made = None
    return render_template(
        "practice/job.html",
        job=wanted.job,
        resin=wanted.resin,
        form=form,
        facts=facts_of(made.crack) if made else [],
        assumed=[assumption(name, made) for name in made.assumed] if made else [],
        refused="" if made else _("The model does not take a crack of this size."),
        run_id=_run_id(request.form.get("run", "")),
    )


def _run_id(sent: str) -> str:
    """The id that the form carried, so that sending it twice makes one run; else a new one."""
    try:
        return str(UUID(sent))
    except ValueError:
        return new_id()


def _wanted_or_404(job_id: str) -> Wanted:
    with reading() as connection:
        found = job_by_id(connection, job_id)
        resin = resin_by_id(connection, found.resin_id) if found else None
        plan = card_plan_of(connection, job_id)
    if found is None or resin is None:
        abort(404)
    return Wanted(found, resin, plan.typed if plan else NOTHING_TYPED)
