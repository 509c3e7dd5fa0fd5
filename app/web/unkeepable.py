"""Characters that no record can keep: the zero character, and half of a pair (a lone surrogate).

A PostgreSQL text column takes neither, and whatever is typed may end in one. So a request that
holds one in its address, in a form or in a file's name is refused before any page sees it. What a
phone sends is read item by item: app/web/outbox_items.py refuses the item and no other.
"""

from collections.abc import Iterator
from typing import Any

from flask import request
from werkzeug.exceptions import BadRequest


class Unkeepable(BadRequest):
    """A request with a character that can't be kept; app/web/errors.py has its page."""


def refuse_unkeepable() -> None:
    """Refuse the request if its address, a form's field or a file's name can't be kept."""
    if any(is_unkeepable(text) for text in _texts_of_request()):
        raise Unkeepable


def is_unkeepable(text: str) -> bool:
    """Say whether a text holds a zero character or a lone surrogate."""
    return any(letter == "\0" or "\ud800" <= letter <= "\udfff" for letter in text)


def has_unkeepable(said: Any) -> bool:
    """Say whether any text in JSON data, names included, can't be kept."""
    waiting = [said]
    while waiting:
        one = waiting.pop()
        if isinstance(one, str) and is_unkeepable(one):
            return True
        if isinstance(one, dict):
            waiting += [*one.keys(), *one.values()]
        elif isinstance(one, list):
            waiting += one
    return False


def _texts_of_request() -> Iterator[str]:
    yield request.path
    for fields in (request.args, request.form):
        for name, values in fields.lists():
            yield name
            yield from values
    for name, file in request.files.items(multi=True):
        yield name
        yield file.filename or ""
