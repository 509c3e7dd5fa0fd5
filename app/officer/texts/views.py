"""Texts: what is in force, what waits, reading and comparing it, approving it. HTTP only."""

from typing import Any

from flask import abort, redirect, render_template, request, url_for
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.accounts.people import all_people
from app.curriculum.bundles import POLICY
from app.curriculum.text_differences import differences
from app.database import reading
from app.officer.blueprint import curriculum, doer, officer, telling
from app.officer.signing import carry_out
from app.officer.texts.actions import Approval, approve, approve_as_delivered, delivered_hash
from app.officer.texts.forms import SOMEBODY_ELSE, ApprovalForm, FirstApprovalForm
from app.officer.texts.pages import TextState, text_states
from app.officer.texts.revision_effects import affected_by_major
from app.officer.words import meaning_of, revision_words
from app.records.deciding.revising import Author
from app.records.policy import policy_from
from app.records.texts.kept import kept_files
from app.trade.errors import Refusal
from app.web.forms import choice_list
from app.web.now import today
from app.web.text_views import shown_text, text_title
from app.web.texts import text_shelf
from app.web.who import signed_in


@officer.context_processor
def _text_words() -> dict[str, Any]:
    return {"text_name": lambda state: text_title(state.name, state.module)}


def _states() -> list[TextState]:
    with reading() as connection:
        return text_states(connection, text_shelf().files, today())


def _state_or_404(name: str) -> TextState:
    found = next((state for state in _states() if state.name == name), None)
    if found is None:
        abort(404)
    return found


@officer.get("/texts")
def texts() -> str:
    """List the modules and the policy: what is in force, since when, and what waits."""
    is_served = bool(curriculum().modules)
    with reading() as connection:
        words = telling(connection)
        faults = [] if is_served else text_shelf().why_not(connection, today())
    states = _states()
    return render_template(
        "officer/texts.html",
        faults=faults,
        states=states,
        never=[state for state in states if state.was_never_approved],
        is_served=is_served,
        words=words,
        revision_words=revision_words,
    )


@officer.route("/texts/as-delivered", methods=["GET", "POST"])
def first_approval() -> Response | str | tuple[str, int]:
    """Approve every text that nobody ever approved, as it is in the files."""
    form = FirstApprovalForm()
    states = [state for state in _states() if state.was_never_approved and state.files]
    if form.validate_on_submit():
        asked = Approval(
            form.sha256.data, "editorial", _named(form.author_name.data), form.reason.data
        )
        receipt = carry_out(
            form, lambda c, signed: approve_as_delivered(c, doer(), signed, states, asked)
        )
        if receipt is not None:
            return redirect(url_for("officer.texts"), 303)
    if not states:
        return redirect(url_for("officer.texts"), 303)
    if not form.is_submitted():
        form.occurred_on.data, form.author_name.data = today(), "Lowport project"
        form.sha256.data = delivered_hash(states)
    with reading() as connection:
        words = telling(connection)
    page = render_template(
        "officer/texts-first.html",
        form=form,
        states=states,
        words=words,
        meaning=meaning_of("content-revised"),
    )
    return (page, 422) if form.is_submitted() else page


@officer.route("/texts/<name>", methods=["GET", "POST"])
def text(name: str) -> Response | str | tuple[str, int]:
    """Show one text and its revisions; approve the one that waits."""
    state = _state_or_404(name)
    form = ApprovalForm()
    with reading() as connection:
        people = [(person.id, person.name) for person in all_people(connection)]
    somebody = (SOMEBODY_ELSE, _("A firm or project, named below"))
    form.author.choices = choice_list([("", _("Choose…")), somebody, *people])
    if name == POLICY:
        form.change.choices = choice_list(
            [
                ("editorial", _("Editorial: the words changed, the rules did not")),
                ("major", _("Major: the rules changed")),
            ]
        )
    if form.validate_on_submit():
        asked = Approval(form.sha256.data, form.change.data, _author(form), form.reason.data)
        receipt = carry_out(form, lambda c, signed: approve(c, doer(), signed, state, asked))
        if receipt is not None:
            return redirect(url_for("officer.record", record_id=receipt.id), 303)
    if not form.is_submitted():
        form.occurred_on.data, form.sha256.data = today(), state.file_hash
    page = _text_page(state, form)
    return (page, 422) if form.is_submitted() else page


def _text_page(state: TextState, form: ApprovalForm) -> str:
    affected = []
    with reading() as connection:
        words = telling(connection)
        if state.is_waiting:
            affected = affected_by_major(connection, policy_from(curriculum()), state, doer())
    return render_template(
        "officer/text.html",
        form=form,
        state=state,
        affected=affected,
        meaning=meaning_of("content-revised"),
        revision_words=revision_words,
        words=words,
    )


@officer.get("/texts/<name>/waiting")
def waiting_text(name: str) -> str:
    """Read the text that waits, as workers would see it, with the questions and their keys."""
    state = _state_or_404(name)
    if not state.is_waiting:
        abort(404)
    shown = shown_text(state.name, state.files, state.module, has_questions=True)
    with reading() as connection:
        words = telling(connection)
    return render_template("officer/text-waiting.html", state=state, shown=shown, words=words)


@officer.get("/texts/<name>/compare")
def compare_texts(name: str) -> str:
    """Compare two revisions line by line: those named, or what waits with what is in force."""
    state = _state_or_404(name)
    approved = [one.event for one in state.history if one.event.sha256]
    old = request.args.get("old", state.now.sha256 if state.now else "")
    new = request.args.get("new", state.file_hash)
    known = {event.sha256 for event in approved} | {state.file_hash}
    if old not in known or new not in known:
        abort(404)
    try:
        with reading() as connection:
            words = telling(connection)
            sides = [
                state.files if side == state.file_hash else kept_files(connection, side)
                for side in (old, new)
            ]
        found, lost = differences(sides[0], sides[1]), ""
    except Refusal as refusal:
        found, lost = [], words.refused(refusal)
    return render_template(
        "officer/text-compare.html",
        state=state,
        found=found,
        lost=lost,
        old=old,
        new=new,
        words=words,
    )


def _author(form: ApprovalForm) -> Author:
    if form.author.data == SOMEBODY_ELSE:
        return _named(form.author_name.data or "")
    return Author(person=form.author.data or "")


def _named(name: str) -> Author:
    who = signed_in()
    return Author(name=name, approver_names=(who.name, who.sign_in_name))
