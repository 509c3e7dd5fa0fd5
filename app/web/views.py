"""Signing in and out, the first page, and how pages are shown."""

from flask import Blueprint, abort, flash, g, redirect, render_template, request, session, url_for
from flask_babel import force_locale, gettext
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.accounts.people import LANGUAGES, set_preference
from app.accounts.sessions import end_session, open_session
from app.accounts.sign_in import check_sign_in
from app.database import writing
from app.trade.errors import Refusal
from app.web.forms import SignInForm
from app.web.now import now
from app.web.scripts import WORDS, script_text, scripts_digest, words_script
from app.web.stylesheet import sheet_digest, sheet_text
from app.web.telling import names_in_words, tell
from app.web.texts import served_curriculum
from app.web.who import choice

web = Blueprint(
    "web", __name__, template_folder="templates", static_folder="static", static_url_path="/assets"
)

_FIRST_PAGES = (
    ("safety-officer", "officer.board"),
    ("trainer", "trainer.jobs"),
    ("worker", "worker.learn"),
)


@web.get("/")
def home() -> Response:
    """Send each person to the page their day starts with; an officer first to unapproved texts."""
    if g.person.has_role("safety-officer") and not served_curriculum().modules:
        return redirect(url_for("officer.texts"))
    for role, endpoint in _FIRST_PAGES:
        if g.person.has_role(role):
            return redirect(url_for(endpoint))
    return redirect(url_for("public.sources"))


@web.get("/health")
def health() -> dict[str, str]:
    """Say that the server answers."""
    return {"status": "ok"}


@web.get("/assets/css/book-<digest>.css")
def stylesheet(digest: str) -> Response:
    """Serve all sheets as one; the name changes with the content, so it is kept for a year."""
    return _kept_by_digest(Response(sheet_text(), mimetype="text/css"), digest == sheet_digest())


@web.get("/assets/js-<digest>/<path:name>")
def script(digest: str, name: str) -> Response:
    """Serve a script under the digest of them all, or the sentences it says in one language."""
    text = script_text(name)
    if words := WORDS.fullmatch(name):
        if words[1] not in LANGUAGES:
            abort(404)
        with force_locale(words[1]):
            text = words_script(gettext, names_in_words())
    if text is None:
        abort(404)
    return _kept_by_digest(Response(text, mimetype="text/javascript"), digest == scripts_digest())


def _kept_by_digest(answer: Response, is_newest: bool) -> Response:
    answer.headers["Cache-Control"] = f"public, max-age={31536000 if is_newest else 0}, immutable"
    return answer


@web.route("/sign-in", methods=["GET", "POST"])
def sign_in() -> Response | str | tuple[str, int]:
    """Show the sign-in form, and open a session for the right pair."""
    form = SignInForm()
    if not form.validate_on_submit():
        return render_template("sign-in.html", form=form), 422 if form.is_submitted() else 200
    with writing() as connection:
        found = check_sign_in(connection, form.sign_in_name.data, form.password.data, now())
        if not isinstance(found, Refusal):
            token = open_session(connection, found, now())
    if isinstance(found, Refusal):
        form.password.errors = [tell(found)]
        return render_template("sign-in.html", form=form), 422
    after = session.get("after_sign_in") or url_for("web.home")
    session.clear()
    session["token"] = token
    return redirect(_own_path(after))


@web.post("/sign-out")
def sign_out() -> Response:
    """End this session on the server too."""
    with writing() as connection:
        end_session(connection, session.get("token", ""), now())
    session.clear()
    flash(_("You are signed out."))
    return redirect(url_for("web.sign_in"))


@web.post("/show")
def set_choice() -> Response:
    """Keep a choice of units, theme or language, and return to the page it was made on."""
    for name in ("units", "theme", "language"):
        value = request.form.get(name)
        if value is None:
            continue
        if g.person is not None:
            with writing() as connection:
                set_preference(connection, g.person.id, name, value)
        elif len(value) <= 6:
            session[name] = value
            session[name] = choice(name)
    return redirect(_own_path(request.form.get("back", "/")))


def _own_path(path: str) -> str:
    """Return the path if it leads to a page of this site, else the first page."""
    is_own = path.startswith("/") and not path.startswith("//") and "\\" not in path
    return path if is_own and path.isprintable() else "/"
