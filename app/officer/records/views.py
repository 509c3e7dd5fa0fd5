"""One record, and making it void by a new one with a reason."""

from datetime import date

from flask import abort, redirect, render_template, url_for
from werkzeug.wrappers import Response

from app.database import reading
from app.officer.actions import counter_entry
from app.officer.blueprint import curriculum, doer, officer, telling, wants_all
from app.officer.forms import CounterForm
from app.officer.previewing import preview
from app.officer.records.corrections import Asked, correct, would_raise
from app.officer.records.pages import record_page
from app.officer.records.rise_pages import rise_page
from app.officer.signing import carry_out, has_refused
from app.officer.words import (
    judgement_word,
    meaning_of,
    outcome_word,
    revision_words,
)
from app.records.deciding.refusals import NeedsSecondOfficer
from app.records.ledger.columns import SHARED_KINDS
from app.records.ledger.door import event_by_id
from app.records.policy import policy_from
from app.web.device_words import signed_on_phone
from app.web.now import today
from app.web.photo_answer import photos_here


@officer.get("/records/<record_id>")
def record(record_id: str) -> str:
    """Show one record: what, who, when, how it was signed, and its place in the chain."""
    form = CounterForm()
    form.occurred_on.data = today()
    return _page(record_id, form)


@officer.post("/records/<record_id>/counter")
def counter(record_id: str) -> Response | tuple[str, int]:
    """Make a record void; nothing is deleted."""
    with reading() as connection:
        found = event_by_id(connection, record_id)
    if found is None:
        abort(404)
    form = CounterForm()
    if form.validate_on_submit():
        is_proposed = form.propose.data == "yes"
        asked = Asked("counter-entry", record_id, form.reason.data, is_proposed=is_proposed)
        policy = policy_from(curriculum())
        receipt = carry_out(form, lambda c, signed: correct(c, policy, doer(), signed, asked))
        if receipt is not None:
            return redirect(url_for("officer.record", record_id=receipt.id), 303)
    return _page(record_id, form), 422


def _page(record_id: str, form: CounterForm) -> str:
    on: date = form.occurred_on.data or today()
    with reading() as connection:
        words = telling(connection)
        found = record_page(connection, curriculum(), record_id, words)
        if found is None:
            abort(404)
        asked = counter_entry(record_id, form.reason.data or "…")
        policy = policy_from(curriculum())
        seen = preview(connection, policy, doer(), asked, found.event.person, on)
        correction = Asked("counter-entry", record_id, form.reason.data or "…")
        rises = () if found.voided_by else would_raise(connection, policy, doer(), correction)
        risen = rise_page(rises, words, is_all=wants_all())
    is_for_two = bool(risen.shown) or has_refused(form, NeedsSecondOfficer)
    form.propose.data = "yes" if is_for_two else ""
    return render_template(
        "officer/record.html",
        form=form,
        found=found,
        event=found.event,
        seen=seen,
        bears_on_all=found.event.kind in SHARED_KINDS,
        refused=words.refused(seen.refusal) if seen.refusal else "",
        meaning=meaning_of(found.event.kind),
        counter_meaning=meaning_of("correction-proposed" if is_for_two else "counter-entry"),
        is_for_two=is_for_two,
        risen=risen,
        outcome_word=outcome_word,
        judgement_word=judgement_word,
        revision_words=revision_words,
        words=words,
        on_phone=signed_on_phone(found.event),
        photos_here=photos_here(record_id),
    )
