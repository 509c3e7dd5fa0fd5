"""Who is at the other end of this request, and how they like their pages."""

from datetime import timedelta

from babel import negotiate_locale
from flask import current_app, g, request, session

from app.accounts.people import LANGUAGES, THEMES, UNITS, Person
from app.accounts.sessions import session_person, touch_session
from app.database import reading, writing
from app.web.audience import FILE_ENDPOINTS
from app.web.now import now

NOTE_EVERY = timedelta(minutes=5)


def load_person() -> None:
    """Set ``g.person`` from the session's token, or None."""
    g.person = None
    token = session.get("token")
    if not token or request.endpoint in FILE_ENDPOINTS:
        return
    settings = current_app.extensions["lowport_settings"]
    longest, idle = timedelta(hours=settings.session_hours), timedelta(hours=settings.idle_hours)
    with reading() as connection:
        found = session_person(connection, token, now(), longest, idle)
    if found is None:
        return
    g.person, seen_at = found
    if now().replace(tzinfo=None) - seen_at > NOTE_EVERY:
        with writing() as connection:
            touch_session(connection, token, now())


def signed_in() -> Person:
    """Return the person signed in; only for pages that are closed to others."""
    person = g.person
    assert isinstance(person, Person)
    return person


def choice(name: str) -> str:
    """Return the language, units or theme this page should be shown in."""
    allowed = {"language": LANGUAGES, "units": UNITS, "theme": THEMES}[name]
    if g.get("person") is not None:
        return str(getattr(g.person, name))
    kept = session.get(name)
    if kept in allowed:
        return str(kept)
    return _asked_language() if name == "language" else {"units": "us", "theme": "auto"}[name]


def _asked_language() -> str:
    # Werkzeug's best_match sends "es-MX,en" to English; Babel's negotiation gets it right.
    asked = [value.replace("-", "_") for value in request.accept_languages.values()]
    return negotiate_locale(asked, list(LANGUAGES)) or "en"
