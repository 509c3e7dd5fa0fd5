"""A supervised repair as one page for the wall, kept on the phone; and what waits for a password.

HTTP only. Everything noted on the page stays on the phone until it is signed there.
"""

from flask import abort, flash, render_template
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.accounts.devices import device_by_id
from app.accounts.people import names
from app.database import reading, writing
from app.records.ledger.door import Receipt
from app.trade.errors import Refusal
from app.trainer.blueprint import Page, curriculum, doer, is_signed, to_repair, trainer
from app.trainer.doing import Refused, password_refused
from app.trainer.forms import PasswordForm
from app.trainer.repairs.papers import papers_of
from app.trainer.signing.record_views import title_of
from app.trainer.signing.views import meaning
from app.trainer.wall.body import WallBody, read_body
from app.trainer.wall.page import Shown, wall_data
from app.trainer.wall.signing import Sent, confirm
from app.trainer.words import tell_refusal
from app.web.who import choice, signed_in
from app.workbook.sign_offs import PhoneSignOff, sign_off_of


@trainer.get("/repairs/<repair>/at-the-wall")
def at_the_wall(repair: str) -> Response | str:
    """Show every card of a repair on one page that works without signal."""
    with reading() as connection:
        papers = papers_of(connection, curriculum(), repair, signed_in().id)
        known = names(connection)
    if papers is None:
        if is_signed(repair):
            return to_repair(repair)
        abort(404)
    name = known.get(papers.watching.person_id, "")
    title = title_of(papers.watching.qualification_id)
    shown = Shown(choice("language"), doer().name, name, title, meaning())
    return render_template(
        "trainer/at-the-wall.html",
        papers=papers,
        name=name,
        title=title,
        meaning=meaning(),
        data=wall_data(papers, shown),
    )


@trainer.route("/repairs/<repair>/confirm", methods=["GET", "POST"])
def confirm_sign_off(repair: str) -> Response | Page:
    """Read what a phone without a key has sent, and make it a record with the password."""
    with reading() as connection:
        held = sign_off_of(connection, repair)
        papers = papers_of(connection, curriculum(), repair, signed_in().id)
    if held is not None and held.recorded_at is not None and is_signed(repair):
        return to_repair(repair)
    if held is None or papers is None or held.recorded_at is not None:
        abort(404)
    form = PasswordForm()
    if not form.validate_on_submit():
        return _confirm(held, form, 422 if form.is_submitted() else 200)
    done = _recorded(held, form.password.data)
    if isinstance(done, Refused):
        form.password.errors = [tell_refusal(done.refusal, curriculum())]
        return _confirm(held, form, 422)
    flash(_("Signed and kept. Receipt %(number)s.", number=done.seq))
    return to_repair(repair)


def _recorded(held: PhoneSignOff, password: str) -> Receipt | Refused:
    who = doer()
    with writing() as connection:
        refused = password_refused(connection, who, password)
        if refused is not None:
            return refused
        device = device_by_id(connection, held.device_id)
        is_lost = device is not None and device.is_revoked
        try:
            return confirm(connection, Sent(curriculum(), who, held, is_lost), held)
        except Refusal as refusal:
            return Refused("password", refusal)


def _confirm(held: PhoneSignOff, form: PasswordForm, code: int) -> tuple[str, int]:
    body: WallBody = read_body(held.signed_text.encode())
    with reading() as connection:
        known = names(connection)
    page = render_template(
        "trainer/confirm-sign-off.html",
        held=held,
        body=body,
        name=known.get(body.person, ""),
        title=title_of(body.qualification),
        module_titles={
            name: module.lesson(choice("language")).title
            for name, module in curriculum().modules.items()
        },
        item_text=_item_text,
        form=form,
    )
    return page, code


def _item_text(module_id: str, item_id: str) -> str:
    module = curriculum().modules.get(module_id)
    items = module.checklist if module else ()
    found = next((one for one in items if one.id == item_id), None)
    return found.text.in_language(choice("language")) if found else item_id
