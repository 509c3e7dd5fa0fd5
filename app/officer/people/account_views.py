"""A person's account: printed name, roles, whether they may sign in, password, sessions."""

from flask import abort, flash, redirect, render_template, url_for
from flask_babel import gettext as _
from flask_wtf import FlaskForm
from sqlalchemy import Connection
from werkzeug.wrappers import Response

from app.accounts.people import Person
from app.database import writing
from app.officer.blueprint import doer, officer, person_or_404
from app.officer.forms import ActiveForm, NameForm, PasswordForm, RolesForm, SessionsForm
from app.officer.people import account_actions as acts
from app.trade.errors import Refusal
from app.web.telling import tell

# what may be changed -> its form, and the field that a refusal stands beside
_FORMS: dict[str, type[FlaskForm]] = {
    "name": NameForm,
    "roles": RolesForm,
    "active": ActiveForm,
    "password": PasswordForm,
    "sessions": SessionsForm,
}
_FIELDS = {
    "name": "printed_name",
    "roles": "roles",
    "active": "is_active",
    "password": "new_password",
    "sessions": "is_sure",
}


@officer.get("/people/<person>/account")
def account(person: str) -> str:
    """Show what may be changed about an account."""
    about = person_or_404(person)
    return _page(about, {name: _fresh(name, about) for name in _FORMS})


@officer.post("/people/<person>/account/<what>")
def change_account(person: str, what: str) -> Response | tuple[str, int]:
    """Change one thing about an account."""
    about = person_or_404(person)
    if what not in _FORMS:
        abort(404)
    form = _FORMS[what](prefix=f"{what}-")
    if form.validate() and _change(what, about, form):
        return redirect(url_for("officer.account", person=about.id), 303)
    others = {name: _fresh(name, about) for name in _FORMS if name != what}
    return _page(about, {**others, what: form}), 422


def _fresh(what: str, about: Person) -> FlaskForm:
    """A form that shows the account as it is, whatever another form on the page has sent."""
    shown = {
        "printed_name": about.name,
        "roles": sorted(about.roles),
        "is_active": about.is_active,
    }
    return _FORMS[what](formdata=None, data=shown, prefix=f"{what}-")


def _change(what: str, about: Person, form: FlaskForm) -> bool:
    """Do it in one transaction; False with the refusal's sentence beside its field."""
    try:
        with writing() as connection:
            refusal = _act(connection, what, about.id, form)
    except Refusal as raised:
        form[_FIELDS[what]].errors = [tell(raised)]
        return False
    if refusal is not None:
        form["own_password"].errors = [tell(refusal)]
        return False
    flash(_said(what))
    return True


def _act(connection: Connection, what: str, person: str, form: FlaskForm) -> Refusal | None:
    match what:
        case "name":
            acts.rename(connection, person, form["printed_name"].data or "")
        case "roles":
            acts.give_roles(connection, person, form["roles"].data or ())
        case "active":
            acts.let_sign_in(connection, doer(), person, form["is_active"].data)
        case "password":
            new, own = form["new_password"].data or "", form["own_password"].data
            return acts.new_password(connection, doer(), person, new, own)
        case _:
            acts.end_sessions(connection, doer(), person)
    return None


def _said(what: str) -> str:
    return {
        "name": _("The name is changed. Signed records keep the name they were signed with."),
        "roles": _("The roles are changed."),
        "active": _("That is changed."),
        "password": _("The new password is set. All their sessions are ended."),
        "sessions": _("All their sessions are ended. They sign in anew on every device."),
    }[what]


def _page(about: Person, forms: dict[str, FlaskForm]) -> str:
    return render_template("officer/account.html", about=about, forms=forms)
