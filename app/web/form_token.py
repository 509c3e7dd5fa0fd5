"""One form token for a session instead of a new one for each page, so that a page stays the same.

A page whose bytes do not change costs a phone only a revalidation the second time. The token is
renewed at half of its life, and it is as secret as the session it belongs to.
"""

import time

from flask import Response, current_app, g, session


def reuse_form_token() -> None:
    """Hand the session's token to Flask-WTF, which makes one only where there is none.

    The session is signed, so the token in it need not be checked again, only its age.
    """
    age = time.time() - session.get("form_token_at", 0)
    if "csrf_token" in session and age < current_app.config["WTF_CSRF_TIME_LIMIT"] / 2:
        g.csrf_token = session["form_token"]


def keep_form_token(response: Response) -> Response:
    """Keep the token that was made for this page, if one was."""
    made = g.get("csrf_token")
    if made and "csrf_token" in session and session.get("form_token") != made:
        session["form_token"], session["form_token_at"] = made, int(time.time())
    return response
