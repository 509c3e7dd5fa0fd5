"""Characters that no record can keep: the zero character, and half of a pair (a lone surrogate).

A PostgreSQL text column takes neither, and whatever is typed may end in one. So a request that
holds one in its address, in a form or in a file's name is refused before any page sees it. What a
phone sends is read item by item: app/web/outbox/items.py refuses the item and no other.
"""

import re
from collections.abc import Iterator
from typing import Any

from flask import request
from werkzeug.datastructures import MultiDict
from werkzeug.exceptions import BadRequest

_UNKEEPABLE = re.compile("[\0\ud800-\udfff]")


class Unkeepable(BadRequest):
    """A request with a character that can't be kept; app/web/errors.py has its page."""


def refuse_unkeepable() -> None:
    """Refuse the request if its address, a form's field or a file's name can't be kept."""
    if any(is_unkeepable(text) for text in _texts_of_request()):
        raise Unkeepable


def is_unkeepable(text: str) -> bool:
    """Say whether a text holds a zero character or a lone surrogate."""
    return _UNKEEPABLE.search(text) is not None


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
    yield from _texts_of(request.args)
    if request.method in ("GET", "HEAD"):
        return  # nothing is read from what such a request may send along
    yield from _texts_of(request.form)
    for name, file in request.files.items(multi=True):
        yield name
        yield file.filename or ""


def _texts_of(fields: MultiDict[str, str]) -> Iterator[str]:
    for name, values in fields.lists():
        yield name
        yield from values
