"""Jobs: the list, a new one, its page. HTTP only: parse, call, answer."""

from flask import abort, flash, redirect, render_template, request, url_for
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.database import reading, writing
from app.ids import new_id
from app.trainer.blueprint import Page, curriculum, doer, job_or_404, trainer
from app.trainer.jobs.forms import OWN_FIGURE, JobForm, LookForm
from app.trainer.jobs.pages import AMOUNTS, RuleLine, job_page, rule_lines
from app.trainer.words import rule_bounds, rule_words, shown
from app.web.crew.sets import set_choices
from app.web.forms import choice_list
from app.web.texts import served_crew
from app.web.who import choice
from app.workbook.jobs import Job, all_jobs, keep_job
from app.workbook.resins import all_resins, resin_by_id

# More than this is a dam, not a crack, or a slip of the pen.
MOST_NET_ML = 300_000


@trainer.get("/jobs")
def jobs() -> str:
    """Show every job."""
    with reading() as connection:
        found = all_jobs(connection)
    return render_template("trainer/jobs.html", jobs=found)


@trainer.route("/jobs/new", methods=["GET", "POST"])
def new_job() -> Response | Page:
    """Show the form, the spacing rules for the sizes typed, or open the job."""
    with reading() as connection:
        resins = all_resins(connection)
        crew = served_crew(connection)
    form = JobForm()
    form.crew_set.choices = set_choices(crew, curriculum(), choice("language"))
    form.resin.choices = choice_list([("", _("Choose …")), *((r.id, r.name) for r in resins)])
    _set_rules(form, [])
    if not form.is_submitted():
        form.crew_set.data = crew.for_job("").set_id if crew else ""
        return _job_form(form, 200)
    is_valid = form.validate()
    if request.form.get("act") == "rules":
        _keep_errors_of(form, JobForm.GEOMETRY)
        return _job_form(form, 422 if form.errors else 200)
    if not is_valid or _holds_too_much(form):
        return _job_form(form, 422)
    job = _job_from(form)
    with writing() as connection:
        keep_job(connection, job)
    flash(_("The job is open."))
    return redirect(url_for("trainer.job", job=job.id), 303)


@trainer.get("/jobs/<job>")
def job(job: str) -> Page:
    """Show a job's facts, the spacing rules side by side, the amounts and the pot life."""
    found = job_or_404(job)
    with reading() as connection:
        resin = resin_by_id(connection, found.resin_id)
        crew = served_crew(connection)
    if resin is None:
        abort(404)
    hands = crew.for_job(found.crew_set).title if crew else None
    form = LookForm(request.args)
    is_valid = not request.args or form.validate()
    names = (*AMOUNTS, "temperature")
    asked = {n: None if form[n].errors else form[n].quantity_data for n in names}
    page = job_page(curriculum(), found, resin, asked)
    html = render_template(
        "trainer/job.html",
        page=page,
        form=form,
        hands=hands.in_language(choice("language")) if hands else "",
        rule_words=rule_words,
        rule_bounds=rule_bounds,
        own_figure=OWN_FIGURE,
        rule_sources=[(line.rule.source, line.source) for line in page.rules],
    )
    return html, 200 if is_valid else 422


def _job_form(form: JobForm, code: int) -> tuple[str, int]:
    lines = _rules_for(form)
    _set_rules(form, lines)
    sources = [(line.rule.source, line.source) for line in lines]
    return render_template("trainer/job-new.html", form=form, sources=sources), code


def _rules_for(form: JobForm) -> list[RuleLine]:
    if not form.knows_member():
        return []
    thickness, depth = float(form.thickness.quantity_data), float(form.depth_mm())
    return rule_lines(curriculum(), thickness, depth)


def _set_rules(form: JobForm, lines: list[RuleLine]) -> None:
    """The rules as choices: with their figure once the member is known."""
    known = {line.rule.source: line for line in lines}
    # Any member gives the names of the rules.
    names = [line.rule for line in lines or rule_lines(curriculum(), 100, 100)]
    form.spacing_rule.choices = choice_list(
        [(rule.source, rule_words(rule, known.get(rule.source))) for rule in names]
        + [(OWN_FIGURE, _("None of these: the chooser's own figure"))]
    )


def _keep_errors_of(form: JobForm, names: tuple[str, ...]) -> None:
    for field in form:
        if field.name not in names:
            field.errors = []


def _holds_too_much(form: JobForm) -> bool:
    sizes = (form.length.quantity_data, form.depth_mm(), form.width.quantity_data)
    volume = float(sizes[0] * sizes[1] * sizes[2]) / 1000
    if volume <= MOST_NET_ML:
        return False
    form.width.errors = [
        _(
            "A crack of these sizes would hold %(volume)s. Look at length, depth and width again.",
            volume=shown(volume, "volume"),
        )
    ]
    return True


def _job_from(form: JobForm) -> Job:
    who = doer()
    return Job(
        id=new_id(),
        site=form.site.data,
        structure=form.structure.data,
        orientation=form.orientation.data,
        access=form.access.data,
        length_mm=float(form.length.quantity_data),
        thickness_mm=float(form.thickness.quantity_data),
        depth_mm=float(form.depth_mm()),
        width_mm=float(form.width.quantity_data),
        spacing_mm=float(form.spacing.quantity_data),
        spacing_rule=form.spacing_rule.data,
        spacing_chosen_by=form.spacing_chosen_by.data,
        port_kind=form.port_kind.data,
        resin_id=form.resin.data,
        note=form.note.data or "",
        is_invented=False,
        created_by=who.person_id,
        created_at=who.now,
        crew_set=form.crew_set.data or "",
    )
