"""Which revision of each module is in force, and putting the files' revision in force."""

from flask import abort, redirect, render_template, url_for
from werkzeug.wrappers import Response

from app.database import reading
from app.officer.actions import revision, sign
from app.officer.blueprint import curriculum, doer, officer, telling
from app.officer.forms import RevisionForm
from app.officer.procedure_pages import affected_by_major, procedures
from app.officer.signing import carry_out
from app.officer.words import meaning_of, revision_words
from app.web.now import today


@officer.get("/procedures")
def revisions() -> str:
    """List the modules with their revisions."""
    with reading() as connection:
        listed = procedures(connection, curriculum())
        words = telling(connection)
    return render_template(
        "officer/procedures.html", listed=listed, words=words, revision_words=revision_words
    )


@officer.route("/procedures/<module>", methods=["GET", "POST"])
def revise(module: str) -> Response | str | tuple[str, int]:
    """Put the revision of the files in force, editorial or major."""
    found = curriculum().modules.get(module)
    if found is None:
        abort(404)
    form = RevisionForm()
    if form.validate_on_submit():
        asked = revision(found.id, found.revision, form.change.data)
        receipt = carry_out(form, lambda c, signed: sign(c, doer(), signed, (), asked))
        if receipt is not None:
            return redirect(url_for("officer.record", record_id=receipt.id), 303)
    if not form.is_submitted():
        form.occurred_on.data = today()
    with reading() as connection:
        listed = procedures(connection, curriculum())
        affected = affected_by_major(connection, curriculum(), found, doer())
        words = telling(connection)
    page = render_template(
        "officer/procedure.html",
        form=form,
        procedure=next(p for p in listed if p.module.id == found.id),
        affected=affected,
        meaning=meaning_of("content-revised"),
        revision_words=revision_words,
        words=words,
    )
    return (page, 422) if form.is_submitted() else page
