"""The list of people, one person's page, and adding a person."""

from flask import flash, redirect, render_template, request, url_for
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.accounts.passwords import WeakPassword
from app.accounts.people import (
    BadPrintedName,
    BadSignInName,
    NoRole,
    SignInNameTaken,
    add_person,
    all_people,
    person_by_id,
)
from app.database import reading, writing
from app.officer.blueprint import curriculum, officer, person_or_404, telling
from app.officer.board.pages import PAGE_SIZE
from app.officer.board.turning import page_asked, turn
from app.officer.forms import PersonForm, SearchForm
from app.officer.people.person_pages import person_page
from app.officer.words import role_word
from app.records.proof.checkpoint import newest_line
from app.trade.errors import Refusal
from app.web.now import now, today, zone
from app.web.telling import tell
from app.web.two_clocks import Clocks, ClocksForm

_FIELD_OF = {
    BadPrintedName: "printed_name",
    BadSignInName: "sign_in_name",
    SignInNameTaken: "sign_in_name",
    WeakPassword: "password",
    NoRole: "roles",
}


@officer.get("/people")
def people() -> str:
    """List everybody, or those whose name holds what was typed."""
    form = SearchForm(request.args)
    wanted = (form.name.data or "").strip().casefold()
    with reading() as connection:
        found = [
            p
            for p in all_people(connection)
            if wanted in p.name.casefold() or wanted in p.sign_in_name
        ]
    pages = max(1, -(-len(found) // PAGE_SIZE))
    number = min(max(page_asked(), 1), pages)
    return render_template(
        "officer/people.html",
        form=form,
        people=found[(number - 1) * PAGE_SIZE : number * PAGE_SIZE],
        total=len(found),
        role_word=role_word,
        turn=turn(number, pages),
    )


@officer.route("/people/new", methods=["GET", "POST"])
def new_person() -> Response | str | tuple[str, int]:
    """Add a person; the form sent twice adds one."""
    form = PersonForm()
    if not form.validate_on_submit():
        page = render_template("officer/new-person.html", form=form)
        return (page, 422) if form.is_submitted() else page
    try:
        name, is_new = _add(form)
    except Refusal as refusal:
        form[_FIELD_OF.get(type(refusal), "printed_name")].errors = [tell(refusal)]
        return render_template("officer/new-person.html", form=form), 422
    flash(_("%(name)s can sign in now.", name=name) if is_new else _("Already added."))
    return redirect(url_for("officer.person", person=form.person_id.data), 303)


def _add(form: PersonForm) -> tuple[str, bool]:
    with writing() as connection:
        earlier = person_by_id(connection, form.person_id.data)
        if earlier is not None:
            return earlier.name, False
        add_person(
            connection,
            sign_in_name=form.sign_in_name.data or "",
            printed_name=form.printed_name.data or "",
            password=form.password.data or "",
            roles=form.roles.data or (),
            person_id=form.person_id.data,
        )
    return form.printed_name.data or "", True


@officer.get("/people/<person>")
def person(person: str) -> str | tuple[str, int]:
    """Show one person's standing with every reason, and all that is on record about them."""
    found = person_or_404(person)
    form = ClocksForm(request.args)
    is_fine = form.validate()
    if not request.args.get("as_of"):
        form.as_of.data = today()
    page = clocks = words = None
    checkpoint = ""
    if is_fine:
        clocks = Clocks(form.as_of.data or today(), form.known_on.data, zone())
        with reading() as connection:
            words = telling(connection)
            page = person_page(connection, curriculum(), found, clocks, words)
            checkpoint = newest_line(connection)
    shown = render_template(
        "officer/person.html",
        form=form,
        about=found,
        page=page,
        clocks=clocks,
        words=words,
        role_word=role_word,
        checkpoint=checkpoint,
        made_at=now(),
    )
    return shown if is_fine else (shown, 422)
