"""Verified jobs, and late entries of other trainers. HTTP only."""

from typing import Any

from flask import flash, redirect, render_template, url_for
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.accounts.people import names, people_with_role
from app.database import reading, writing
from app.ids import new_id
from app.records.policy import policy_from
from app.trainer.blueprint import Page, curriculum, doer, job_or_404, to_repair, trainer
from app.trainer.doing import Refused
from app.trainer.forms import PasswordForm
from app.trainer.repairs.actions import may_sign_today
from app.trainer.repairs.forms import UseForm
from app.trainer.repairs.views import offer_people, put, titles
from app.trainer.signing.pages import late_entries
from app.trainer.signing.vouching import Verified, verify_job, vouch
from app.trainer.words import tell_refusal
from app.web.who import signed_in
from app.workbook.jobs import job_titles


@trainer.route("/jobs/<job>/use", methods=["GET", "POST"])
def use(job: str) -> Response | Page:
    """Record that a qualified person did this job."""
    found = job_or_404(job)
    form = UseForm()
    with reading() as connection:
        may_sign = may_sign_today(connection, curriculum(), doer())
        offer_people(form, people_with_role(connection, "worker"), may_sign)
    if not form.is_submitted():
        form.occurred_on.data, form.record_id.data = doer().today, new_id()
        return _use(found, form, may_sign), 200
    if not form.validate():
        form.record_id.data = form.record_id.data if not form.record_id.errors else new_id()
        return _use(found, form, may_sign), 422
    about = (form.person.data, form.qualification.data, form.occurred_on.data)
    asked = Verified(form.record_id.data, *about)
    with writing() as connection:
        done = verify_job(connection, curriculum(), found, asked, form.password.data, doer())
    if isinstance(done, Refused):
        put(form, done)
        return _use(found, form, may_sign), 422
    flash(_("The verified job is on record. Receipt %(number)s.", number=done.seq))
    return to_repair(done.id)


def _use(job: Any, form: UseForm, may_sign: dict[str, bool]) -> str:
    return render_template(
        "trainer/use.html", job=job, form=form, may_sign_any=any(may_sign.values())
    )


@trainer.get("/late-entries")
def late() -> str:
    """Show records that came in late and wait for a second trainer's word."""
    return _late({})


@trainer.post("/late-entries/<record>")
def countersign(record: str) -> Response | Page:
    """Vouch for one late record."""
    form = PasswordForm(prefix=record)
    if not form.validate_on_submit():
        return _late({record: form}), 422
    with writing() as connection:
        done = vouch(connection, curriculum(), new_id(), record, form.password.data, doer())
    if isinstance(done, Refused):
        form.password.errors = [tell_refusal(done.refusal, curriculum())]
        return _late({record: form}), 422
    flash(_("Countersigned. Receipt %(number)s.", number=done.seq))
    return redirect(url_for("trainer.late"), 303)


def _late(sent: dict[str, PasswordForm]) -> str:
    """The list, a form to each record; what was refused stands in its own form."""
    with reading() as connection:
        waiting = late_entries(connection, policy_from(curriculum()), signed_in().id)
        known, jobs = names(connection), job_titles(connection)
    return render_template(
        "trainer/late-entries.html",
        waiting=waiting,
        names=known,
        jobs=jobs,
        qualifications=titles(),
        forms={
            event.id: sent.get(event.id) or PasswordForm(formdata=None, prefix=event.id)
            for event in waiting
        },
    )
