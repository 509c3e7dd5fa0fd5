"""What templates say, look up and draw again and again: kept by everything it follows from.

Flask-Babel finds context, domain, language and catalogue anew for each sentence, and Flask builds
each address anew. Both took more of a page's time than everything that differs between two pages.
Nothing here can go stale: catalogues, routes and templates stay as they are while the program runs,
and what else a result hangs on is in its key.
"""

from collections.abc import Callable
from functools import lru_cache, wraps
from typing import Any, ParamSpec, TypeVar

from flask import Flask, g, get_template_attribute, request
from flask import url_for as built_address
from flask_babel import get_locale, get_translations
from markupsafe import Markup

Given = ParamSpec("Given")
Words = TypeVar("Words")


def register_kept_words(app: Flask) -> None:
    """Let every template use them: ``_()`` and ``url_for()`` as before, and ``drawn()``."""
    app.jinja_env.globals.update(_=told, gettext=told, url_for=address, drawn=drawn)


def page_language() -> str:
    """The language of this page, found once for each request."""
    try:
        found = g.page_language
    except AttributeError:
        found = g.page_language = str(get_locale())
    return str(found)


def told(sentence: str, **values: Any) -> Markup:
    """The sentence in the page's language; values are escaped as they are put in."""
    words = _sentence(page_language(), sentence)
    return words % values if values else _without_values(words)


@lru_cache(maxsize=5000)
def _sentence(_language: str, sentence: str) -> Markup:
    return Markup(get_translations().ugettext(sentence))


@lru_cache(maxsize=5000)
def _without_values(words: Markup) -> Markup:
    return words % {}  # "%%" is one sign, as in a sentence with values


def address(endpoint: str, **values: Any) -> str:
    """The address of a page on this server, as ``flask.url_for`` gives it."""
    if endpoint.startswith(".") or any(name.startswith("_") for name in values):
        return built_address(endpoint, **values)
    return _address(request.script_root, endpoint, **values)


@lru_cache(maxsize=5000, typed=True)
def _address(_root: str, endpoint: str, **values: Any) -> str:
    return built_address(endpoint, **values)


def kept_in_each_language(say: Callable[Given, Words]) -> Callable[Given, Words]:
    """Keep what a function says; for those that look at nothing but what they are given.

    No person, no units, no clock, no form token: the key is the language and what is given.
    """

    @lru_cache(maxsize=2000, typed=True)
    def kept(_language: str, *given: Given.args, **named: Given.kwargs) -> Words:
        return say(*given, **named)

    @wraps(say)
    def said(*given: Given.args, **named: Given.kwargs) -> Words:
        return kept(page_language(), *given, **named)

    return said


@kept_in_each_language
def drawn(template: str, macro: str, *given: Any, **named: Any) -> Markup:
    """What a macro makes of what it is given; the macro looks at nothing else."""
    return Markup(get_template_attribute(template, macro)(*given, **named))
