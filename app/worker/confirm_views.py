"""Repairs to confirm: the list, one repair in full, "I did this repair". HTTP only."""

from flask import abort, redirect, render_template, url_for
from flask_babel import lazy_gettext
from flask_wtf import FlaskForm
from werkzeug.wrappers import Response
from wtforms import PasswordField
from wtforms.validators import InputRequired, Length

from app.accounts.people import names
from app.database import reading, writing
from app.trade.errors import Refusal
from app.web.judged_words import judgements, outcomes
from app.web.telling import tell
from app.web.who import choice, signed_in
from app.workbook.jobs import job_titles
from app.worker.blueprint import curriculum, doer, worker
from app.worker.confirming import OwnRepair, confirm, own_repair, port_rows, waiting_for
from app.worker.words import day


class ConfirmForm(FlaskForm):
    """The password again, as a signature."""

    password = PasswordField(
        lazy_gettext("Your password"),
        [InputRequired(lazy_gettext("Type your password again.")), Length(max=200)],
    )


@worker.get("/repairs-to-confirm")
def to_confirm() -> str:
    """Show the supervised repairs the person is asked about."""
    with reading() as connection:
        waiting = waiting_for(connection, curriculum(), signed_in().id)
        jobs = job_titles(connection)
    return render_template(
        "worker/to-confirm.html", waiting=waiting, jobs=jobs, titles=_titles(), day=day
    )


@worker.route("/repairs-to-confirm/<repair>", methods=["GET", "POST"])
def confirm_repair(repair: str) -> Response | tuple[str, int]:
    """Show a supervised repair in full; keep the word of the person who was watched."""
    form = ConfirmForm()
    with reading() as connection:
        found = own_repair(connection, curriculum(), repair, doer())
    if found is None:
        abort(404)
    if not form.validate_on_submit():
        return _page(found, form), 422 if form.is_submitted() else 200
    with writing() as connection:
        done = confirm(connection, curriculum(), repair, form.password.data, doer())
    if isinstance(done, Refusal):
        form.password.errors = [tell(done)]
        return _page(found, form), 422
    return redirect(url_for("worker.confirm_repair", repair=repair), 303)


def _page(found: OwnRepair, form: ConfirmForm) -> str:
    with reading() as connection:
        known, jobs = names(connection), job_titles(connection)
    language = choice("language")
    return render_template(
        "worker/confirm.html",
        found=found,
        form=form,
        log=port_rows(found.event, doer().units),
        names=known,
        jobs=jobs,
        titles=_titles(),
        modules={n: m.lesson(language).title for n, m in curriculum().modules.items()},
        outcomes=outcomes(),
        judgements=judgements(),
        day=day,
        now=doer().today,
    )


def _titles() -> dict[str, str]:
    language = choice("language")
    return {name: q.title.in_language(language) for name, q in curriculum().qualifications.items()}
