"""Supervised repairs: the list, a new one, its overview, giving it up. HTTP only."""

from typing import Any

from flask import abort, flash, redirect, render_template, url_for
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.accounts.people import names, people_with_role
from app.database import reading, writing
from app.trainer.blueprint import (
    Page,
    curriculum,
    doer,
    job_or_404,
    trainer,
)
from app.trainer.doing import Refused
from app.trainer.repairs.actions import may_sign_today, start_repair
from app.trainer.repairs.batches import batches
from app.trainer.repairs.forms import WhoForm
from app.trainer.repairs.papers import Papers, papers_of
from app.trainer.signing.pages import signed_by
from app.trainer.signing.record_views import record_page
from app.trainer.words import tell_refusal
from app.web.forms import choice_list
from app.web.who import choice, signed_in
from app.workbook.jobs import job_titles
from app.workbook.observations import drop_observation, open_observations
from app.workbook.sign_offs import waiting_for_password


@trainer.get("/repairs")
def repairs() -> str:
    """Show what this trainer has open and what they signed."""
    with reading() as connection:
        return render_template(
            "trainer/repairs.html",
            held=waiting_for_password(connection, signed_in().id),
            opened=open_observations(connection, signed_in().id),
            signed=signed_by(connection, signed_in().id),
            names=names(connection),
            jobs=job_titles(connection),
            qualifications=titles(),
        )


@trainer.route("/jobs/<job>/repairs/new", methods=["GET", "POST"])
def new_repair(job: str) -> Response | Page:
    """Choose whom to watch and for what; say at once what a signature would be refused for."""
    found = job_or_404(job)
    form, may_sign = WhoForm(), {}
    with reading() as connection:
        may_sign = may_sign_today(connection, curriculum(), doer())
        offer_people(form, people_with_role(connection, "worker"), may_sign)
    if not form.is_submitted():
        form.occurred_on.data = doer().today
        return _who(found, form, may_sign), 200
    if not form.validate():
        return _who(found, form, may_sign), 422
    about = (form.person.data, form.qualification.data, form.occurred_on.data)
    with writing() as connection:
        started = start_repair(connection, found, *about, doer())
    if isinstance(started, Refused):
        put(form, started)
        return _who(found, form, may_sign), 422
    return redirect(url_for("trainer.repair", repair=started.id), 303)


def _who(job: Any, form: WhoForm, may_sign: dict[str, bool]) -> str:
    return render_template(
        "trainer/repair-new.html",
        job=job,
        form=form,
        may_sign_any=any(may_sign.values()),
        is_waiting=not curriculum().modules,
    )


@trainer.get("/repairs/<repair>")
def repair(repair: str) -> Response | Page:
    """Show a repair's papers while it is watched, its record once it is signed."""
    with reading() as connection:
        papers = papers_of(connection, curriculum(), repair, signed_in().id)
        known = names(connection)
    if papers is None:
        return record_page(repair)
    return render_template(
        "trainer/repair.html",
        papers=papers,
        name=known.get(papers.watching.person_id, ""),
        ports=_module_ports(papers),
        next_step=_next_step(papers),
        has_log=any(item.log for _module, item in papers.items),
        batches=batches(papers),
        total=sum(len(module.checklist) for module in papers.modules),
        noted=sum(papers.noted(module) for module in papers.modules),
    )


def _next_step(papers: Papers) -> dict[str, str] | None:
    """The first step that is not noted yet: its checklist's title and its address."""
    for module, item in papers.items:
        if (module.id, item.id) not in papers.seen:
            place = {"repair": papers.watching.id, "module": module.id, "item": item.id}
            return {
                "title": module.lesson(choice("language")).title,
                "url": url_for("trainer.watch_item", **place),
            }
    return None


def _module_ports(papers: Papers) -> list[dict[str, Any]]:
    """The checklists as ports on the margin's crack."""
    language = choice("language")
    shown: list[dict[str, Any]] = []
    is_here_taken = False
    for module in papers.modules:
        noted, total = papers.noted(module), len(module.checklist)
        state = "done" if noted == total else "later" if is_here_taken else "here"
        is_here_taken = is_here_taken or state == "here"
        shown.append(
            {
                "title": module.lesson(language).title,
                "url": url_for("trainer.watch_module", repair=papers.watching.id, module=module.id),
                "word": _("%(noted)s of %(total)s noted", noted=noted, total=total),
                "state": state,
            }
        )
    return shown


@trainer.post("/repairs/<repair>/drop")
def drop(repair: str) -> Response:
    """Give up a supervised repair that was not signed."""
    with writing() as connection:
        papers = papers_of(connection, curriculum(), repair, signed_in().id)
        if papers is None:
            abort(404)
        drop_observation(connection, repair, doer().now)
    flash(_("The supervised repair was given up. Nothing of it is on record."))
    return redirect(url_for("trainer.repairs"), 303)


def titles() -> dict[str, str]:
    """Every qualification's title in the page's language."""
    language = choice("language")
    return {name: q.title.in_language(language) for name, q in curriculum().qualifications.items()}


def offer_people(form: WhoForm, people: list[Any], may_sign: dict[str, bool]) -> None:
    """Offer the crew, and every qualification with a word where the trainer may not sign today."""
    form.person.choices = choice_list([("", _("Choose …")), *((p.id, p.name) for p in people)])
    form.qualification.choices = choice_list(
        [
            (
                name,
                title if may_sign[name] else _("%(title)s (you may not sign today)", title=title),
            )
            for name, title in titles().items()
        ]
    )


def put(form: Any, refused: Refused) -> None:
    """Put a refusal's sentence beside its field."""
    form[refused.field].errors = [tell_refusal(refused.refusal, curriculum())]
