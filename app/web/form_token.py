"""One form token for a session instead of a new one for each page, so that a page stays the same.

A page whose bytes do not change costs a phone only a revalidation the second time. The token is
renewed at half of its life, and it is as secret as the session it belongs to.
"""

from flask import Response, current_app, g, session
from flask_wtf.csrf import validate_csrf
from wtforms import ValidationError


def reuse_form_token() -> None:
    """Hand the session's token to Flask-WTF, which makes one only where there is none."""
    kept = session.get("form_token")
    if not kept:
        return
    try:
        validate_csrf(kept, time_limit=current_app.config["WTF_CSRF_TIME_LIMIT"] // 2)
    except ValidationError:
        return
    g.csrf_token = kept


def keep_form_token(response: Response) -> Response:
    """Keep the token that was made for this page, if one was."""
    made = g.get("csrf_token")
    if made and "csrf_token" in session and session.get("form_token") != made:
        session["form_token"] = made
    return response
