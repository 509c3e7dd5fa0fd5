"""A file with what waits on a phone, brought in at the office by a trainer or a safety officer."""

import json
from dataclasses import dataclass

from flask import abort, g, render_template, request
from flask_babel import gettext as _
from sqlalchemy import Connection

from app.accounts.people import Person, person_by_id
from app.database import reading
from app.web.now import now
from app.web.outbox.items import ItemRefused, read_item
from app.web.outbox.taking import take_in
from app.web.outbox.views import outbox

MOST_ITEMS = 500


@dataclass(frozen=True, slots=True)
class Brought:
    """What became of one thing in the file."""

    name: str  # of the person who made it, as far as it could be read
    kind: str
    said: str
    is_in: bool


class NoOutboxFile(ValueError):
    """The file is not one that a phone has saved; the sentence says what it lacks."""


@outbox.route("/outbox/import", methods=["GET", "POST"])
def bring_in() -> str | tuple[str, int]:
    """Ask for a file; take each thing in it in as if the phone had sent it, and say which."""
    if not (g.person.has_role("trainer") or g.person.has_role("safety-officer")):
        abort(403)
    if request.method == "GET":
        return render_template("outbox-import.html", brought=[], wrong="")
    upload = request.files.get("file")
    try:
        texts = texts_in(upload.read() if upload else b"")
    except NoOutboxFile as refusal:
        return render_template("outbox-import.html", brought=[], wrong=str(refusal)), 422
    brought = [_taken(text, g.person) for text in texts]
    return render_template("outbox-import.html", brought=brought, wrong="")


def texts_in(data: bytes) -> list[str]:
    """The items' exact texts; raises NoOutboxFile."""
    if not data:
        raise NoOutboxFile(_("Choose the file first."))
    try:
        said = json.loads(data.decode())
    except ValueError as wrong:
        raise NoOutboxFile(_("That is no file saved from a phone.")) from wrong
    items = said.get("items") if isinstance(said, dict) else None
    is_ours = isinstance(items, list) and said.get("format") == "lowport-outbox"
    if not is_ours or not all(isinstance(text, str) for text in items or []):
        raise NoOutboxFile(_("That is no file saved from a phone."))
    if said.get("version") != 1:
        raise NoOutboxFile(_("That file is from a newer version. Update the server first."))
    if len(items or []) > MOST_ITEMS:
        raise NoOutboxFile(_("There is too much in that file."))
    return list(items or [])


def _taken(text: str, carrier: Person) -> Brought:
    name, kind = _whose(text)
    try:
        _receipt, is_new = take_in(text, carrier, _("Phone, by file"), now(), is_file=True)
    except ItemRefused as refusal:
        return Brought(name, kind, refusal.detail, False)
    said = _("Taken in.") if is_new else _("It was here already.")
    return Brought(name, kind, said, True)


def _whose(text: str) -> tuple[str, str]:
    try:
        item = read_item(text)
    except ItemRefused:
        return "?", "?"
    with reading() as connection:
        return _name(connection, item.person_id), kind_words(item.kind)


def kind_words(kind: str) -> str:
    """What a kind of thing is called; a kind without a word of its own by its name."""
    words = {
        "step-done": _("Step done"),
        "practice-answer": _("Practice answer"),
        "quiz-answer": _("Quiz answer"),
        "sign-off": _("Signed supervised repair"),
        "photo": _("Photo of a repair"),
        "thrown-away": _("A note that something was thrown away"),
    }
    return words.get(kind, kind)


def _name(connection: Connection, person_id: str) -> str:
    found = person_by_id(connection, person_id)
    return found.name if found else "?"
