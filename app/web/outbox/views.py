"""Where phones send what was done without signal, and the page that shows what waits.

``POST /outbox`` takes JSON, either one item or ``{"items": [text, …], "issued": {device: number}}``
where each text is an item exactly as the phone keeps it; tests/web/test_outbox_endpoint.py shows
the forms. It carries no form token, because a token would go stale in an outbox; instead only our
own pages may send to it, and only JSON, which a form of another site can't.
"""

from typing import Any

from flask import Blueprint, Response, current_app, g, jsonify, render_template, request
from flask_babel import gettext as _

from app.accounts.people import Person
from app.database import writing
from app.web.now import now
from app.web.outbox.items import ItemRefused, malformed
from app.web.outbox.phones import label_of, note_issued
from app.web.outbox.same_origin import is_from_own_page
from app.web.outbox.taking import take_in
from app.web.problems import problem, problem_answer
from app.workbook.receipts import Receipt

outbox = Blueprint("outbox", __name__)

MOST_ITEMS = 50


@outbox.get("/outbox")
def waiting() -> str:
    """Show what is on this phone and not sent yet; the list itself is made on the phone."""
    return render_template("outbox.html")


@outbox.post("/outbox")
def receive() -> Response:
    """Take in one item or a batch; each gets a receipt, or a problem with a sentence."""
    try:
        sender = _sender()
        said = request.get_json(silent=True)
        if not isinstance(said, dict):
            raise ItemRefused(400, "not-json", _("That was no JSON."))
        if "items" not in said:
            receipt, is_new = take_in(request.get_data(as_text=True), sender, _label(), now())
            return _answer(as_told(receipt), 201 if is_new else 200)
        return _answer(_batch(said, sender), 200)
    except ItemRefused as refusal:
        return problem_answer(_told(refusal))


def _sender() -> Person:
    """Who sends, once it is sure that it is a page of ours and JSON; raises ItemRefused."""
    if not is_from_own_page(request):
        raise ItemRefused(403, "cross-site", _("Only a page of this site may send here."))
    if request.mimetype != "application/json":
        raise ItemRefused(415, "not-json", _("Only JSON is taken here."))
    if not isinstance(g.person, Person):
        raise ItemRefused(401, "signed-out", _("Sign in, and it is sent. Nothing is lost."))
    return g.person


def _batch(said: dict[str, Any], sender: Person) -> dict[str, Any]:
    items = said["items"]
    if not isinstance(items, list) or not all(isinstance(text, str) for text in items):
        raise malformed("items", items)
    if len(items) > MOST_ITEMS:
        raise ItemRefused(413, "too-many", _("Send less at once."))
    outcomes = [_outcome(text, sender) for text in items]
    with writing() as connection:
        note_issued(connection, said.get("issued", {}), sender, now())
    return {"outcomes": outcomes, "server_time": now().isoformat()}


def _outcome(text: str, sender: Person) -> dict[str, Any]:
    """One item's receipt or problem; an item that breaks the server does not stop the others."""
    try:
        receipt, is_new = take_in(text, sender, _label(), now())
    except ItemRefused as refusal:
        return {"status": refusal.status, "problem": _told(refusal)}
    except Exception:
        current_app.logger.exception("an item of an outbox failed")
        title = _("Something broke on our side")
        return {"status": 500, "problem": problem(500, "server-error", title)}
    return {"status": 201 if is_new else 200, "receipt": as_told(receipt)}


def as_told(receipt: Receipt) -> dict[str, Any]:
    """The receipt as the phone gets it; the same for the first time and every later one."""
    return {
        "id": receipt.id,
        "kind": receipt.kind,
        "digest": receipt.digest,
        "sequence": receipt.sequence,
        "arrived_at": receipt.arrived_at.isoformat() + "Z",
        "result": receipt.result,
    }


def _told(refusal: ItemRefused) -> dict[str, Any]:
    title = _("This was not taken in")
    return problem(refusal.status, refusal.code, title, refusal.detail)


def _label() -> str:
    return label_of(request.user_agent.string)


def _answer(members: dict[str, Any], status: int) -> Response:
    answer = jsonify(members)
    answer.status_code = status
    answer.headers["Cache-Control"] = "no-store"
    return answer
