"""A trainer's own phones: registering this one for signing, and what is registered. HTTP only."""

import secrets
from typing import Any

from flask import flash, redirect, render_template, request, session, url_for
from flask_babel import gettext as _
from sqlalchemy import Connection
from werkzeug.wrappers import Response
from wtforms import HiddenField
from wtforms.validators import Length

from app.accounts.device_keys import SignatureWrong, keys_of, register_key, verified_by
from app.accounts.devices import devices_of, note_device
from app.database import reading, writing
from app.records.ledger.canonical import canonical
from app.trade.errors import Refusal
from app.trainer.blueprint import Page, doer, trainer
from app.trainer.doing import password_refused
from app.trainer.forms import PasswordForm
from app.web.outbox.phones import label_of
from app.web.telling import tell
from app.web.who import signed_in

ENROLMENT_TYP = "lowport-enrolment+jws"


class DeviceForm(PasswordForm):
    """The phone fills in its id, its public key and a first signature; the person the password."""

    device = HiddenField(validators=[Length(max=36)])
    public_key = HiddenField(validators=[Length(max=400)])
    proof = HiddenField(validators=[Length(max=2000)])


class NotReady(Refusal):
    """The form came without what a phone's script fills in."""

    template = "This phone sent no key. Load the page again and try once more."


class PhoneLost(Refusal):
    """The phone was reported lost before."""

    template = "This phone was reported lost. Show it to a safety officer."


@trainer.route("/devices", methods=["GET", "POST"])
def devices() -> Response | Page:
    """Show the trainer's phones; register this one once its key has signed a first time."""
    form = DeviceForm()
    if not form.validate_on_submit():
        return _page(form, 422 if form.is_submitted() else 200)
    refusal = _enrolled(form, session.get("enrolment", ""))
    if refusal is not None:
        form.password.errors = [tell(refusal)]
        return _page(form, 422)
    session.pop("enrolment", None)
    flash(_("This phone is registered. Repairs signed on it need no password."))
    return redirect(url_for("trainer.devices"), 303)


def _enrolled(form: DeviceForm, challenge: str) -> Refusal | None:
    who = doer()
    if not challenge or not all(form[name].data for name in ("device", "public_key", "proof")):
        return NotReady()
    with writing() as connection:
        refusal = password_refused(connection, who, form.password.data)
        if refusal is not None:
            return refusal.refusal
        try:
            _register(connection, form, challenge)
        except Refusal as wrong:
            return wrong
    return None


def _register(connection: Connection, form: DeviceForm, challenge: str) -> None:
    """Take the key in; the proof shows that the phone can sign with it, for this sign-in only."""
    who = doer()
    label = label_of(request.user_agent.string)
    device = note_device(connection, form.device.data, who.person_id, 0, label, who.now)
    if device.is_revoked:
        raise PhoneLost
    key_id = register_key(connection, device, form.public_key.data, who.now)
    expected = {"challenge": challenge, "device": device.id, "person": who.person_id}
    signed = verified_by(form.public_key.data, form.proof.data, ENROLMENT_TYP, key_id)
    if signed != canonical(dict(expected)):
        raise SignatureWrong


def _page(form: DeviceForm, code: int) -> tuple[str, int]:
    session["enrolment"] = secrets.token_urlsafe(24)
    for name in ("device", "public_key", "proof"):
        form[name].data = ""
    with reading() as connection:
        known = devices_of(connection, signed_in().id)
        keys: dict[str, Any] = {one.device_id: one for one in keys_of(connection, signed_in().id)}
    page = render_template(
        "trainer/devices.html",
        form=form,
        devices=known,
        keys=keys,
        challenge=session["enrolment"],
        typ=ENROLMENT_TYP,
    )
    return page, code
