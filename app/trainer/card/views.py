"""The job card and its options. HTTP only: parse, call, answer."""

from flask import abort, flash, redirect, render_template, url_for
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.accounts.people import names as names_of
from app.database import reading, writing
from app.trade.errors import Refusal
from app.trainer.blueprint import Page, curriculum, doer, job_or_404, trainer
from app.trainer.card import words
from app.trainer.card.blocks import blocks, facts, log_rows, places, ratio_rows, sheet_rows
from app.trainer.card.cautions import cautions, gear
from app.trainer.card.crack import crack_of
from app.trainer.card.drawings import drawings
from app.trainer.card.fields import GROUPS
from app.trainer.card.forms import CardForm, form_of
from app.trainer.card.pages import Card, card_of
from app.trainer.card.plan import Plan
from app.trainer.words import rule_bounds, rule_words
from app.web.now import now
from app.workbook.card_plans import CardPlan, card_plan_of, keep_card_plan
from app.workbook.jobs import Job
from app.workbook.resins import VALUES, Resin, resin_by_id


@trainer.get("/jobs/<job>/card")
def card(job: str) -> Response | Page:
    """Show the card; what has not been typed or is not on the data sheet leaves its line open."""
    found = job_or_404(job)
    resin, kept = _papers(found)
    plan = Plan()
    if kept is not None:
        form = form_of(kept.typed)
        if form.errors:  # typed for rules that have changed since
            return redirect(url_for("trainer.card_options", job=found.id))
        plan = form.plan()
    worked = card_of(curriculum(), found, resin, plan)
    return _card_page(worked, kept)


def _card_page(worked: Card, kept: CardPlan | None) -> str:
    with reading() as connection:
        people = names_of(connection)
    return render_template(
        "trainer/card.html",
        card=worked,
        job=worked.job,
        blocks=blocks(worked),
        facts=facts(worked),
        places=places(worked),
        figures=drawings(worked),
        cautions=cautions(worked),
        gear=gear(),
        log=log_rows(worked),
        ratio=ratio_rows(worked),
        sheet=sheet_rows(worked),
        saved_by=people.get(kept.saved_by, "") if kept else "",
        saved_at=kept.saved_at if kept else None,
        numbers={name: n for n, name in enumerate(worked.sources, start=1)},
        memory_only={n for n, s in worked.sources.items() if s.confidence == "from memory"},
        sheet_names=VALUES,
        today=now(),
        rule_words=rule_words,
        rule_bounds=rule_bounds,
        words=words,
    )


@trainer.route("/jobs/<job>/card/options", methods=["GET", "POST"])
def card_options(job: str) -> Response | Page:
    """Show what the card is worked out with, and keep it as it is typed."""
    found = job_or_404(job)
    _resin, kept = _papers(found)
    form = CardForm()
    if not form.is_submitted():
        return _options_page(found, form_of(kept.typed) if kept else form, 200)
    if not form.validate() or not _can_be_drawn(found, form):
        return _options_page(found, form, 422)
    who = doer()
    with writing() as connection:
        keep_card_plan(connection, found.id, form.typed(), who.person_id, who.now)
    flash(_("Saved. The card is worked out with it."))
    return redirect(url_for("trainer.card", job=found.id), 303)


def _can_be_drawn(job: Job, form: CardForm) -> bool:
    try:
        crack_of(job, form.plan())
    except Refusal as refusal:
        form.put_beside(refusal)
        return False
    return True


def _options_page(job: Job, form: CardForm, code: int) -> tuple[str, int]:
    page = render_template("trainer/card-options.html", job=job, form=form, groups=GROUPS)
    return page, code


def _papers(job: Job) -> tuple[Resin, CardPlan | None]:
    with reading() as connection:
        resin = resin_by_id(connection, job.resin_id)
        kept = card_plan_of(connection, job.id)
    if resin is None:
        abort(404)
    return resin, kept
