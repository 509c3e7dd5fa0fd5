"""Phones: whose each is, whether it may sign, what is still on it, and reporting one lost."""

from datetime import UTC, datetime

from flask import abort, flash, redirect, render_template, url_for
from flask_babel import gettext as _
from flask_wtf import FlaskForm
from werkzeug.wrappers import Response
from wtforms import BooleanField, PasswordField
from wtforms.validators import InputRequired, Length

from app.accounts.device_keys import all_keys
from app.accounts.devices import Device, all_devices, device_by_id, revoke_device
from app.accounts.people import names
from app.accounts.sessions import end_all_sessions
from app.accounts.sign_in import confirm_password
from app.database import reading, writing
from app.officer.blueprint import doer, officer
from app.officer.words import clock_time
from app.trade.errors import Refusal
from app.web.outbox.phones import gaps_by_device
from app.web.photo_answer import photo_answer
from app.web.telling import tell


class LostForm(FlaskForm):
    """That a phone is lost, on the officer's own password: it can't be taken back."""

    is_sure = BooleanField()
    own_password = PasswordField(validators=[InputRequired(), Length(max=200)])

    def __init__(self, **given: object) -> None:
        super().__init__(**given)
        self.is_sure.label.text = _("Sign them out everywhere too")
        self.own_password.label.text = _("Your password")


@officer.get("/phones")
def phones() -> str:
    """Show every phone that has sent something, by person."""
    with reading() as connection:
        found, known = all_devices(connection), names(connection)
        gaps, keys = gaps_by_device(connection), all_keys(connection)
    ordered = sorted(found, key=lambda one: (known.get(one.person_id, ""), one.created_at))
    return render_template(
        "officer/phones.html",
        devices=ordered,
        names=known,
        gaps=gaps,
        keys=keys,
        on_clock=_on_clock,
    )


def _on_clock(at: datetime) -> str:
    """A naive time of the database on the firm's clock."""
    return clock_time(at.replace(tzinfo=UTC))


@officer.route("/phones/<device>", methods=["GET", "POST"])
def phone(device: str) -> Response | tuple[str, int]:
    """Ask before a phone is reported lost; what it sends later waits for a countersign."""
    with reading() as connection:
        found, known = device_by_id(connection, device), names(connection)
    if found is None:
        abort(404)
    form = LostForm()
    if form.validate_on_submit():
        refusal = _report_lost(found, form)
        if refusal is None:
            flash(_("The phone is reported lost. What it sends from now on is kept and flagged."))
            return redirect(url_for("officer.phones"), 303)
        form.own_password.errors = [tell(refusal)]
    page = render_template("officer/phone.html", device=found, names=known, form=form)
    return page, 422 if form.is_submitted() else 200


def _report_lost(found: Device, form: LostForm) -> Refusal | None:
    with writing() as connection:
        who = doer()
        refusal = confirm_password(connection, who.person_id, form.own_password.data, who.now)
        if refusal is not None:
            return refusal
        revoke_device(connection, found.id, who.person_id, who.now)
        if form.is_sure.data:
            end_all_sessions(connection, found.person_id, who.now)
    return None


@officer.get("/records/<record_id>/photos/<photo>")
def photo(record_id: str, photo: str) -> Response:
    """Serve one photo that was signed with the record."""
    return photo_answer(record_id, photo)
