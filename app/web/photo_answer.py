"""A photo of a signed repair as an answer, the same for a trainer and for a safety officer."""

from flask import Response, abort, current_app, send_file

from app.database import reading
from app.records.events import Practical
from app.records.ledger.door import event_by_id
from app.workbook.photos import Photo, photo_by_id, photo_file, photos_of


def photo_answer(record_id: str, photo_id: str) -> Response:
    """Serve the copy, if that photo was signed with that record; otherwise nothing is here."""
    with reading() as connection:
        event, found = event_by_id(connection, record_id), photo_by_id(connection, photo_id)
    if found is None or found.observation_id != record_id or not _is_signed(event, found):
        abort(404)
    path = photo_file(current_app.extensions["lowport_settings"].instance, found.id)
    if not path.is_file():
        abort(404)
    return send_file(path, mimetype="image/jpeg", conditional=True)


def photos_here(record_id: str) -> set[str]:
    """The ids of a record's photos that have arrived."""
    with reading() as connection:
        return {one.id for one in photos_of(connection, record_id)}


def _is_signed(event: object, found: Photo) -> bool:
    """A photo is only shown where what was signed names it, by number and by hash."""
    observation = event.observation if isinstance(event, Practical) else None
    signed = observation.photos if observation else ()
    return any(one.id == found.id and one.sha256 == found.sha256 for one in signed)
