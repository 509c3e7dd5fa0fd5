"""Photos from a phone: looked at by their bytes, drawn anew, kept under names of our own.

Drawing anew (Pillow) drops position data and whatever else was hidden in the file. The hash is of
the bytes as sent, so that the record's list, signed on the phone, can be held against it.
"""

import base64
import binascii
import hashlib
import io
import os
import re
import warnings
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from flask import current_app
from flask_babel import gettext as _
from sqlalchemy import Connection

from app.records.events import Practical
from app.records.ledger.door import event_by_id
from app.web.outbox.items import ItemRefused, malformed
from app.web.outbox.kinds import Arrival
from app.workbook.observations import observation_by_id
from app.workbook.photos import Photo, keep_photo, photo_by_id, photo_file

MOST_BYTES = 600_000
LARGEST_ITEM = MOST_BYTES * 4 // 3 + 4096  # base64, and the item around it
MOST_SIDE = 1600
MOST_PIXELS = 40_000_000
QUALITY = 82
_UUID = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}")
_MAGIC = {b"\xff\xd8\xff": "JPEG", b"\x89PNG\r\n\x1a\n": "PNG"}


@dataclass(frozen=True, slots=True)
class Drawn:
    """A photo drawn anew."""

    jpeg: bytes
    width: int
    height: int


def take_photo(connection: Connection, arrival: Arrival) -> dict[str, Any]:
    """Keep a photo of a repair; ``payload``: photo, repair, module, step, sha256, data (base64)."""
    value = arrival.item.value
    photo_id, repair = value("photo", str), value("repair", str)
    if not _UUID.fullmatch(photo_id):
        raise malformed("payload.photo", photo_id)
    watching = observation_by_id(connection, repair)
    if watching is None or watching.trainer_id != arrival.person.id:
        raise ItemRefused(422, "no-such-repair", _("The photo belongs to no repair of yours."))
    sent = _bytes(value("data", str))
    sha256 = hashlib.sha256(sent).hexdigest()
    if sha256 != value("sha256", str):
        raise ItemRefused(422, "photo-differs", _("The photo is not the one that was taken."))
    _must_be_signed(connection, repair, sha256)
    known = photo_by_id(connection, photo_id)
    if known is not None:
        return _same_again(known, sha256)
    drawn = draw_anew(sent)
    write_photo(photo_file(current_app.extensions["lowport_settings"].instance, photo_id), drawn)
    keep_photo(
        connection,
        Photo(
            id=photo_id,
            observation_id=repair,
            sha256=sha256,
            module_id=value("module", str)[:40],
            item_id=value("step", str)[:60],
            width=drawn.width,
            height=drawn.height,
            arrived_at=arrival.arrived_at.replace(tzinfo=None),
        ),
    )
    return {"photo": photo_id}


def _bytes(text: str) -> bytes:
    try:
        sent = base64.b64decode(text, validate=True)
    except (binascii.Error, ValueError) as wrong:
        raise malformed("payload.data", text) from wrong
    if len(sent) > MOST_BYTES:
        raise ItemRefused(413, "too-large", _("The photo is too large."))
    return sent


def _must_be_signed(connection: Connection, repair: str, sha256: str) -> None:
    """Once the repair is on record, only photos that were signed with it may follow."""
    event = event_by_id(connection, repair)
    if not isinstance(event, Practical) or event.observation is None:
        return
    if sha256 not in {one.sha256 for one in event.observation.photos}:
        raise ItemRefused(422, "not-signed", _("This photo was not among those that were signed."))


def _same_again(known: Photo, sha256: str) -> dict[str, Any]:
    if known.sha256 != sha256:
        raise ItemRefused(409, "other-photo", _("Another photo has this number already."))
    return {"photo": known.id}


def draw_anew(sent: bytes) -> Drawn:
    """The picture as a plain JPEG, upright, not larger than we show; ItemRefused if it is none."""
    from PIL import Image, ImageOps  # only here, so that a start need not load it

    kind = next((name for mark, name in _MAGIC.items() if sent.startswith(mark)), None)
    if kind is None:
        raise ItemRefused(422, "no-photo", _("That is no photo (JPEG or PNG)."))
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            opened = Image.open(io.BytesIO(sent), formats=[kind])
            if opened.width * opened.height > MOST_PIXELS:
                raise ValueError(opened.size)
            picture = ImageOps.exif_transpose(opened).convert("RGB")
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError, Warning) as wrong:
        raise ItemRefused(422, "no-photo", _("That photo can't be opened.")) from wrong
    picture.thumbnail((MOST_SIDE, MOST_SIDE))
    plain = Image.new("RGB", picture.size)
    plain.paste(picture)
    written = io.BytesIO()
    plain.save(written, "JPEG", quality=QUALITY)
    return Drawn(written.getvalue(), *plain.size)


def write_photo(path: Path, drawn: Drawn) -> None:
    """Write the copy whole or not at all; the row that names it follows in the transaction."""
    path.parent.mkdir(mode=0o700, exist_ok=True)
    half = path.with_suffix(".half")
    with half.open("wb") as file:
        file.write(drawn.jpeg)
        file.flush()
        os.fsync(file.fileno())
    half.replace(path)
