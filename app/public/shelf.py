"""What everybody's phone keeps of the public pages: the words of the trade."""

from flask import current_app, url_for

from app.public.words import digest_of, glossary_in
from app.web.kept_pages import Group, Shelf


def groups(_connection: object, _person: object) -> list[Group]:
    """Return the one group there is."""
    glossary = glossary_in(current_app.extensions["lowport_settings"].content)
    return [Group("words", "", (url_for("public.words"),), digest_of(glossary), "page")]


SHELF = Shelf("", frozenset({"public.words"}), groups)
