"""Decisions about a person: grant, suspend, lift, revoke; who may sign as a trainer; merging."""

from datetime import date

from flask import abort, redirect, render_template, request, url_for
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.accounts.people import Person, all_people
from app.database import reading
from app.officer.actions import VERBS, authorisation, decision, sign
from app.officer.blueprint import (
    curriculum,
    doer,
    officer,
    person_or_404,
    qualification_or_404,
    telling,
    wants_all,
)
from app.officer.forms import AuthoriseForm, DecideForm, MergeForm
from app.officer.people.person_pages import Authorisation, authorisations
from app.officer.previewing import preview
from app.officer.records.corrections import Asked, correct, would_raise
from app.officer.records.rise_pages import rise_page
from app.officer.signing import carry_out, has_refused
from app.officer.words import meaning_of
from app.records.deciding.refusals import NeedsSecondOfficer
from app.records.ledger.door import Receipt
from app.records.policy import policy_from
from app.web.forms import choice_list
from app.web.now import today
from app.web.who import choice


@officer.route("/people/<person>/<qualification>/decide/<verb>", methods=["GET", "POST"])
def decide(person: str, qualification: str, verb: str) -> Response | str | tuple[str, int]:
    """Grant, suspend, lift or revoke, with what follows from it spelled out."""
    about = person_or_404(person)
    title = qualification_or_404(qualification)
    if verb not in VERBS:
        abort(404)
    form = DecideForm()
    if form.validate_on_submit():
        policy = policy_from(curriculum())
        asked = decision(policy, verb, about.id, qualification, form.reason.data)
        receipt = carry_out(form, lambda c, signed: sign(c, doer(), signed, (about.id,), asked))
        if receipt is not None:
            return _to_record(receipt)
    page = _decide_page(form, about, qualification, title, verb)
    return (page, 422) if form.is_submitted() else page


def _decide_page(form: DecideForm, about: Person, qualification: str, title: str, verb: str) -> str:
    policy, on = policy_from(curriculum()), _day_shown(form)
    asked = decision(policy, verb, about.id, qualification, form.reason.data or "…")
    with reading() as connection:
        seen = preview(connection, policy, doer(), asked, about.id, on)
        words = telling(connection)
    return render_template(
        "officer/decide.html",
        form=form,
        about=about,
        title=title,
        verb=verb,
        seen=seen,
        change=seen.change_of(qualification),
        refused=words.refused(seen.refusal) if seen.refusal else "",
        meaning=meaning_of(verb),
        words=words,
    )


def _day_shown(form: DecideForm | AuthoriseForm | MergeForm) -> date:
    """The day in the form: today on a fresh one; today for reckoning where it can't be read."""
    if not form.is_submitted():
        form.occurred_on.data = today()
    return form.occurred_on.data or today()


def _to_record(receipt: Receipt) -> Response:
    return redirect(url_for("officer.record", record_id=receipt.id), 303)


@officer.route("/people/<person>/authorise", methods=["GET", "POST"])
def authorise(person: str) -> Response | str | tuple[str, int]:
    """Let a trainer sign for a qualification, or no longer."""
    about = person_or_404(person)
    form = AuthoriseForm()
    if form.validate_on_submit():
        change, _colon, qualification = (form.change.data or "").partition(":")
        if change in ("authorise", "withdraw") and qualification in curriculum().qualifications:
            asked = authorisation(change, about.id, qualification, form.reason.data or "")
            receipt = carry_out(form, lambda c, signed: sign(c, doer(), signed, (about.id,), asked))
            if receipt is not None:
                return _to_record(receipt)
        else:
            form.change.errors = [_("Choose what changes.")]
    _day_shown(form)
    with reading() as connection:
        listed = authorisations(connection, curriculum(), about.id, today())
        words = telling(connection)
    form.change.choices = choice_list([_change_choice(one) for one in listed])
    page = render_template(
        "officer/authorise.html", form=form, about=about, listed=listed, words=words
    )
    return (page, 422) if form.is_submitted() else page


def _change_choice(one: Authorisation) -> tuple[str, str]:
    title = one.title(choice("language"))
    if one.may_sign:
        return f"withdraw:{one.qualification}", _("No longer: %(title)s", title=title)
    return f"authorise:{one.qualification}", _("May sign: %(title)s", title=title)


@officer.route("/merge", methods=["GET", "POST"])
def merge_people() -> Response | str | tuple[str, int]:
    """Make one person of two entries."""
    form = MergeForm()
    with reading() as connection:
        form.kept.choices = form.merged.choices = choice_list(_entries(all_people(connection)))
    if form.validate_on_submit():
        is_proposed = form.propose.data == "yes"
        asked = Asked(
            "identity-merged", form.merged.data, form.reason.data, form.kept.data, is_proposed
        )
        policy = policy_from(curriculum())
        receipt = carry_out(form, lambda c, signed: correct(c, policy, doer(), signed, asked))
        if receipt is not None:
            return _to_record(receipt)
    if not form.is_submitted():
        form.kept.data = request.args.get("kept", "")
        form.merged.data = request.args.get("merged", "")
    page = _merge_page(form)
    return (page, 422) if form.is_submitted() else page


def _merge_page(form: MergeForm) -> str:
    """The form; once both entries are chosen, with the days on which a standing would rise."""
    _day_shown(form)
    kept, merged = form.kept.data or "", form.merged.data or ""
    asked = Asked("identity-merged", merged, form.reason.data or "…", kept)
    with reading() as connection:
        words = telling(connection)
        known = {person.id for person in all_people(connection)}
        is_chosen = {kept, merged} <= known
        policy = policy_from(curriculum())
        rises = would_raise(connection, policy, doer(), asked) if is_chosen else ()
        risen = rise_page(rises, words, is_all=wants_all())
    is_for_two = bool(risen.shown) or has_refused(form, NeedsSecondOfficer)
    form.propose.data = "yes" if is_for_two else ""
    return render_template(
        "officer/merge.html",
        form=form,
        meaning=meaning_of("correction-proposed" if is_for_two else "identity-merged"),
        is_for_two=is_for_two,
        risen=risen,
        words=words,
    )


def _entries(people: list[Person]) -> list[tuple[str, str]]:
    return [("", _("Choose…")), *((p.id, f"{p.name} ({p.sign_in_name})") for p in people)]
