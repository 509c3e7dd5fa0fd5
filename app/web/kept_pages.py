"""Which pages a person's phone keeps for days without signal, and in which groups it tells of them.

Each audience hands the factory a Shelf. Pages of its endpoints carry the header Lowport-Keep, so
that the service worker keeps a copy whenever one is opened; the groups are fetched all at once
from the page that has ``data-keep`` (Learn, for workers), and shown on /on-this-phone.
"""

import hashlib
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Literal

from flask import Flask, Response, current_app, g, request
from sqlalchemy import Connection

from app.accounts.people import Person
from app.database import reading
from app.web.offline_assets import shell_digest, templates_digest
from app.web.who import choice


@dataclass(frozen=True, slots=True)
class Group:
    """Pages that are only of use together, such as one module's; ``digest`` is of their content.

    A "page" is kept without being counted; modules and repairs are told by their title.
    """

    id: str
    title: str
    urls: tuple[str, ...]
    digest: str
    kind: Literal["page", "module", "repair"]


@dataclass(frozen=True, slots=True)
class Shelf:
    """What people with one role keep. ``groups`` is asked inside a reading transaction."""

    role: str
    endpoints: frozenset[str]
    groups: Callable[[Connection, Person], list[Group]]


def register_shelves(app: Flask, shelves: Iterable[Shelf]) -> None:
    """Add the shelves of the audiences to the app."""
    app.extensions.setdefault("lowport_shelves", []).extend(shelves)


def _shelves(person: Person) -> list[Shelf]:
    found = current_app.extensions["lowport_shelves"]
    return [shelf for shelf in found if not shelf.role or person.has_role(shelf.role)]


def groups_of(person: Person) -> list[Group]:
    """Return all groups of a person, in the order of the shelves."""
    with reading() as connection:
        return [group for shelf in _shelves(person) for group in shelf.groups(connection, person)]


def digest_of(groups: list[Group]) -> str:
    """Return what the kept pages were made from: content, templates, files, and how they look."""
    looks = [choice(name) for name in ("language", "units", "theme")]
    parts = [shell_digest(), templates_digest(), *looks, *(group.digest for group in groups)]
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()[:16]


def tell_whose(response: Response) -> Response:
    """Say on each page whose it is, and whether a phone may keep it."""
    person = g.get("person")
    if person is None or response.mimetype != "text/html":
        return response
    response.headers["Lowport-Person"] = person.id
    is_ours = any(request.endpoint in shelf.endpoints for shelf in _shelves(person))
    if is_ours and request.method == "GET" and response.status_code == 200:
        response.headers["Lowport-Keep"] = "yes"
    return response
