"""Errors in the app's own look; never an exception's text."""

import logging

from flask import Flask, g, render_template
from flask_babel import gettext as _
from flask_wtf.csrf import CSRFError
from werkzeug.exceptions import HTTPException, InternalServerError
from werkzeug.wrappers import Response

from app.web.problems import as_problem, is_asked_by_script
from app.web.unkeepable import Unkeepable

log = logging.getLogger(__name__)


def _words(code: int) -> tuple[str, str]:
    known = {
        400: (_("That could not be read"), _("Go back, check what you typed, and send it again.")),
        403: (_("This page is not yours"), _("Your role doesn't open it. Ask a safety officer.")),
        404: (
            _("Nothing is here"),
            _("The address may be old or mistyped. Start from the first page."),
        ),
        405: (_("That can't be done here"), _("Go back and use the buttons on the page.")),
        413: (_("That is too large"), _("Send less at once: a smaller photo or a shorter text.")),
        500: (
            _("Something broke on our side"),
            _("Nothing was half saved. Try again; if it happens twice, tell a safety officer."),
        ),
    }
    return known.get(code, (_("That did not work"), _("Go back and try again.")))


def register_errors(app: Flask) -> None:
    """Answer every error with a page of the app's own."""

    @app.errorhandler(CSRFError)
    def stale_form(error: CSRFError) -> Response:
        title = _("This form was open too long")
        advice = _("Nothing was saved. Go back, load the page again and send it once more.")
        return _page(error, 400, title, advice)

    @app.errorhandler(Unkeepable)
    def unkeepable(error: Unkeepable) -> Response:
        title = _("There is a character in it that can't be kept")
        advice = _(
            "Nothing was saved. Nobody can see this character; it often comes along when text is "
            "copied. Go back, type it by hand, and send it again."
        )
        return _page(error, 400, title, advice)

    @app.errorhandler(HTTPException)
    def known_error(error: HTTPException) -> Response:
        return _page(error, error.code or 500, *_words(error.code or 500))

    @app.errorhandler(Exception)
    def unknown_error(error: Exception) -> Response:
        log.exception("a request failed")
        return _page(InternalServerError(), 500, *_words(500))


def _page(error: HTTPException, code: int, title: str, advice: str) -> Response:
    g.setdefault("person", None)
    if is_asked_by_script():
        return as_problem(error, code, title, advice)
    answer = error.get_response()
    answer.status_code = code
    answer.set_data(render_template("errors/error.html", title=title, advice=advice, code=code))
    answer.headers["Content-Type"] = "text/html; charset=utf-8"
    return answer
