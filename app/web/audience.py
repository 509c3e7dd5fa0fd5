"""One blueprint per audience, closed unless opened.

Every endpoint of an audience's blueprint asks for a signed-in person who holds the audience's
role. What may be opened without signing in is the short list below, and a test holds the route
map against it.
"""

from flask import Blueprint, abort, g, redirect, request, session, url_for
from werkzeug.wrappers import Response

OPEN_ENDPOINTS = frozenset(
    {
        "static",
        "web.static",
        "web.stylesheet",
        "web.script",
        "web.sign_in",
        "web.health",
        "web.set_choice",
        "phone.worker",  # the service worker, and the page it shows where nothing else is kept
        "phone.offline",
        "outbox.receive",  # answers 401 itself: a script can do nothing with a sign-in page
        "public.sources",
    }
)

# Files for everybody: they know no person and may be kept by any cache.
FILE_ENDPOINTS = frozenset({"static", "web.static", "web.stylesheet", "web.script", "phone.worker"})

ANYBODY_SIGNED_IN = ""


def audience_blueprint(name: str, import_name: str, role: str, prefix: str = "") -> Blueprint:
    """Return a blueprint whose pages are for people with ``role`` only."""
    blueprint = Blueprint(name, import_name, template_folder="templates", url_prefix=prefix or None)

    @blueprint.before_request
    def for_this_role_only() -> None:
        if role and not g.person.has_role(role):
            abort(403)

    return blueprint


def ask_to_sign_in() -> Response | None:
    """Send everybody who is not signed in to the sign-in page, except to open pages.

    The page somebody opened comes after it. One that a phone fetched in the background, to keep it,
    is nothing anybody opened: browsers say which in Sec-Fetch-Mode (Fetch Metadata, W3C).
    """
    if request.endpoint is None or request.endpoint in OPEN_ENDPOINTS or g.person is not None:
        return None
    is_opened = request.headers.get("Sec-Fetch-Mode", "navigate") == "navigate"
    if is_opened and request.method in ("GET", "HEAD"):
        session["after_sign_in"] = request.full_path.rstrip("?")
    return redirect(url_for("web.sign_in"))
