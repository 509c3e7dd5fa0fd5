"""Before signing, everything that will be signed; then the signature. HTTP only."""

from flask import abort, flash, render_template
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.accounts.people import names
from app.database import reading, writing
from app.records.ledger.door import Receipt
from app.records.observation import Signature
from app.trainer.blueprint import Page, curriculum, doer, papers_or_404, to_repair, trainer
from app.trainer.doing import Refused
from app.trainer.forms import PasswordForm
from app.trainer.repairs.papers import Papers, papers_of
from app.trainer.signing.body import observation_of
from app.trainer.signing.record_views import as_signed, title_of
from app.trainer.signing.sign_off import first_receipt, sign_repair
from app.trainer.words import moment, tell_refusal


def meaning() -> str:
    """What the signature means, printed with it."""
    return _("I watched this repair from start to end, and it happened as written here.")


@trainer.get("/repairs/<repair>/review")
def review(repair: str) -> Page:
    """Show everything that will be signed, and pass or not yet with reasons."""
    return _review(papers_or_404(repair), PasswordForm(), 200)


@trainer.post("/repairs/<repair>/sign")
def sign(repair: str) -> Response | Page:
    """Sign, once. Sent again, it changes nothing and gives the first receipt."""
    form = PasswordForm()
    is_valid = form.validate_on_submit()
    with writing() as connection:
        earlier = first_receipt(connection, repair, doer())
        if earlier is None:
            papers = papers_of(connection, curriculum(), repair, doer().person_id)
            if papers is None:
                abort(404)
            if is_valid:
                password = form.password.data
                done = sign_repair(connection, curriculum(), papers, meaning(), password, doer())
    if earlier is not None:
        flash(
            _(
                "You signed this already, on %(at)s. Nothing was added. Receipt %(number)s.",
                at=moment(earlier.recorded_at),
                number=earlier.seq,
            )
        )
        return to_repair(repair)
    if not is_valid:
        return _review(papers, form, 422)
    if isinstance(done, Refused):
        form.password.errors = [tell_refusal(done.refusal, curriculum())]
        return _review(papers, form, 422)
    _say_signed(done)
    return to_repair(repair)


def _say_signed(receipt: Receipt) -> None:
    flash(_("Signed and kept. Receipt %(number)s.", number=receipt.seq))


def _review(papers: Papers, form: PasswordForm, code: int) -> tuple[str, int]:
    open_points = papers.open_points()
    with reading() as connection:
        known = names(connection)
    who = doer()
    shown = {}
    if not open_points:
        signature = Signature(printed_name=who.name, meaning=meaning(), signed_at=who.now)
        observation = observation_of(papers, signature)
        shown = {
            "observation": observation,
            **as_signed(observation, papers.watching.qualification_id),
        }
    page = render_template(
        "trainer/review.html",
        papers=papers,
        name=known.get(papers.watching.person_id, ""),
        qualification=title_of(papers.watching.qualification_id),
        open_points=open_points,
        form=form,
        meaning=meaning(),
        now=who.now,
        **shown,
    )
    return page, code
