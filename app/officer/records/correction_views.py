"""Corrections that wait for a second officer: the list, one of them, confirming it. HTTP only."""

from flask import abort, redirect, render_template, url_for
from werkzeug.wrappers import Response

from app.database import reading
from app.officer.blueprint import curriculum, doer, officer, telling, wants_all
from app.officer.forms import ConfirmForm
from app.officer.previewing import preview
from app.officer.records.corrections import Asked, confirm, confirmed, would_raise
from app.officer.records.rise_pages import rise_page
from app.officer.signing import carry_out
from app.officer.words import meaning_of
from app.records.events import CorrectionProposed
from app.records.ledger.columns import SHARED_KINDS
from app.records.ledger.door import event_by_id
from app.records.ledger.proposals import is_closed, open_proposals
from app.records.policy import policy_from
from app.web.now import today
from app.web.who import signed_in


@officer.get("/corrections")
def corrections() -> str:
    """List the corrections that wait for a second safety officer."""
    with reading() as connection:
        waiting = open_proposals(connection)
        words = telling(connection)
    return render_template("officer/corrections.html", waiting=waiting, words=words)


@officer.route("/corrections/<proposal>", methods=["GET", "POST"])
def correction(proposal: str) -> Response | str | tuple[str, int]:
    """Show a proposed correction; another officer than who proposed it may confirm it."""
    found = _proposal_or_404(proposal)
    form = ConfirmForm()
    if form.validate_on_submit():
        receipt = carry_out(form, lambda c, signed: confirm(c, doer(), signed, found))
        if receipt is not None:
            return redirect(url_for("officer.record", record_id=receipt.id), 303)
    if not form.is_submitted():
        form.occurred_on.data = today()
    page = _page(found, form)
    return (page, 422) if form.is_submitted() else page


def _proposal_or_404(record_id: str) -> CorrectionProposed:
    with reading() as connection:
        found = event_by_id(connection, record_id)
    if not isinstance(found, CorrectionProposed):
        abort(404)
    return found


def _page(found: CorrectionProposed, form: ConfirmForm) -> str:
    with reading() as connection:
        words = telling(connection)
        closed = is_closed(connection, found)
        about = event_by_id(connection, found.about)
        asked = confirmed(found, is_closed=closed)
        policy = policy_from(curriculum())
        seen = preview(connection, policy, doer(), asked, found.person, today())
        would = Asked(found.correction, found.about, found.reason, found.person)
        rises = () if closed else would_raise(connection, policy, doer(), would)
        risen = rise_page(rises, words, is_all=wants_all())
    return render_template(
        "officer/correction.html",
        form=form,
        proposal=found,
        about=about,
        seen=seen,
        risen=risen,
        refused=words.refused(seen.refusal) if seen.refusal else "",
        bears_on_all=about is not None and about.kind in SHARED_KINDS,
        is_closed=closed,
        is_own=found.recorded_by == signed_in().id,
        meaning=meaning_of(found.correction),
        words=words,
    )
