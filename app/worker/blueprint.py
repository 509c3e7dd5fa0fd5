"""The worker's blueprint and what its views share."""

from flask import abort, make_response, render_template
from sqlalchemy import Connection

from app.curriculum.model import Curriculum, Module
from app.web.audience import audience_blueprint
from app.web.now import now, zone
from app.web.texts import served_curriculum, text_shelf
from app.web.who import choice, signed_in
from app.worker.actions import Doer

worker = audience_blueprint("worker", __name__, role="worker")


def curriculum(connection: Connection | None = None) -> Curriculum:
    """Return the approved texts in force today."""
    return served_curriculum(connection)


def module_or_404(module_id: str, connection: Connection | None = None) -> Module:
    """Return the module; or answer that it waits for approval, or that nothing is here."""
    found = curriculum(connection).modules.get(module_id)
    if found is None and module_id in text_shelf().files.modules:
        abort(make_response(render_template("worker/waiting.html"), 404))
    if found is None:
        abort(404)
    return found


def doer() -> Doer:
    """Return who acts in this request, when and where."""
    person = signed_in()
    return Doer(person.id, now(), zone(), choice("language"), choice("units"), name=person.name)
