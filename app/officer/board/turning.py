"""The links from one page of a long list to the page before and the page after."""

from typing import NamedTuple

from flask import request, url_for


class Turn(NamedTuple):
    """What the pager shows. before, after: addresses, None where the list ends."""

    number: int
    pages: int
    before: str | None
    after: str | None


def page_asked() -> int:
    """Return the number of the page that the address asks for; 1 if it says none."""
    return request.args.get("page", 1, type=int)


def turn(number: int, pages: int) -> Turn:
    """Return the links on page `number` of the list asked for, with all else in its address."""
    return Turn(number, pages, _url(number - 1, pages), _url(number + 1, pages))


def _url(number: int, pages: int) -> str | None:
    if not 1 <= number <= pages or request.endpoint is None:
        return None
    kept = {name: value for name, value in request.args.items() if name != "page"}
    return url_for(request.endpoint, **kept, page=number)
