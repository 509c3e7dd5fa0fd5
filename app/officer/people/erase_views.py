"""Erasing a person's name on a lawful request. HTTP only."""

from flask import redirect, render_template, url_for
from werkzeug.wrappers import Response

from app.database import reading
from app.officer.blueprint import doer, officer, person_or_404, telling
from app.officer.forms import EraseForm
from app.officer.people.erasing import erase, records_with_words
from app.officer.signing import carry_out
from app.officer.words import meaning_of
from app.records.ledger.door import event_by_id
from app.web.now import today

_MOST_NAMED = 20


@officer.route("/people/<person>/erase", methods=["GET", "POST"])
def erase_name(person: str) -> Response | str | tuple[str, int]:
    """Say what goes and what stays; erase the name with a reason and the password."""
    about = person_or_404(person)
    form = EraseForm()
    if form.validate_on_submit():
        reason = form.reason.data
        receipt = carry_out(form, lambda c, signed: erase(c, doer(), signed, about.id, reason))
        if receipt is not None:
            return redirect(url_for("officer.record", record_id=receipt.id), 303)
    if not form.is_submitted():
        form.occurred_on.data = today()
    with reading() as connection:
        ids = [] if about.is_erased else records_with_words(connection, about.id)
        named = [event_by_id(connection, one) for one in ids[:_MOST_NAMED]]
        words = telling(connection)
    page = render_template(
        "officer/erase.html",
        form=form,
        about=about,
        count=len(ids),
        named=[event for event in named if event is not None],
        meaning=meaning_of("name-erased"),
        words=words,
    )
    return (page, 422) if form.is_submitted() else page
