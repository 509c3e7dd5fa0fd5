"""What every template can count on: the person, the menu, units, theme and language."""

from typing import Any

from flask import Flask, g, request
from flask_babel import gettext as _
from flask_babel import pgettext

from app.curriculum.text import Text
from app.web.kept_words import address, kept_in_each_language, register_kept_words
from app.web.scripts import scripts_digest
from app.web.signed_names import printed_name
from app.web.stylesheet import sheet_digest
from app.web.telling import say
from app.web.value_words import opened
from app.web.who import choice

# role, endpoint, and the words are made at request time so that they are in the page's language.
_MENU = (
    ("trainer", "trainer.jobs"),
    ("trainer", "trainer.repairs"),
    ("worker", "worker.learn"),
    ("worker", "worker.my_standing"),
    ("safety-officer", "officer.board"),
    ("safety-officer", "officer.people"),
    ("safety-officer", "officer.texts"),
)


@kept_in_each_language
def _label(endpoint: str) -> str:
    return {
        "worker.learn": _("Learn"),
        "worker.my_standing": _("My standing"),
        "trainer.jobs": _("Jobs"),
        "trainer.repairs": pgettext("menu", "Repairs"),
        "officer.board": _("Board"),
        "officer.people": _("People"),
        "officer.texts": _("Texts"),
    }[endpoint]


def menu() -> list[dict[str, Any]]:
    """Return the menu entries for the roles of the person signed in."""
    if g.get("person") is None:
        return []
    return [
        {
            "label": _label(endpoint),
            "url": address(endpoint),
            "is_current": request.endpoint == endpoint,
        }
        for role, endpoint in _MENU
        if g.person.has_role(role)
    ]


def script_url(name: str) -> str:
    """Return the address of a script, under the digest of them all."""
    return address("web.script", digest=scripts_digest(), name=name)


def _in_language(words: Text | str) -> str:
    """Return the content's words in the page's language; names of publications stay as they are."""
    return words if isinstance(words, str) else words.in_language(choice("language"))


def register_pages(app: Flask) -> None:
    """Hand the shared values to every template."""
    register_kept_words(app)
    app.jinja_env.filters["in_words"] = say
    app.jinja_env.filters["in_language"] = _in_language
    app.jinja_env.filters["opened"] = opened
    app.jinja_env.filters["printed_name"] = printed_name

    @app.context_processor
    def shared() -> dict[str, Any]:
        return {
            "person": g.get("person"),
            "nav": menu(),
            "units": choice("units"),
            "theme": choice("theme"),
            "lang": choice("language"),
            "sheet_digest": sheet_digest(),
            "script_url": script_url,
            "is_for_everybody": False,
        }
