"""What the server has of repairs signed on phones, checked with other libraries than its own."""

import base64
import json

from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import encode_dss_signature
from flask import Flask
from PIL import Image
from sqlalchemy import select

from app.accounts.device_keys import key_by_id
from app.database import reading
from app.records.events import Practical
from app.records.ledger.door import event_by_id, light_events
from app.workbook.outbox_tables import outbox_receipt
from app.workbook.photos import photo_file, photos_of
from app.workbook.sign_offs import sign_off_of
from tests.browser.gated import GatedServer


def record_of(app: Flask, repair: str) -> Practical:
    """The one record of a repair; fails when there is none."""
    with app.app_context(), reading() as connection:
        found = event_by_id(connection, repair)
    assert isinstance(found, Practical)
    return found


def supervised_repairs(app: Flask) -> list[str]:
    with app.app_context(), reading() as connection:
        return [e.id for e in light_events(connection) if isinstance(e, Practical)]


def receipts(app: Flask, kind: str) -> int:
    with app.app_context(), reading() as connection:
        kinds = connection.scalars(select(outbox_receipt.c.kind))
        return sum(one == kind for one in kinds)


def bytes_of(text: str) -> bytes:
    return base64.urlsafe_b64decode(text + "=" * (-len(text) % 4))


def verified(app: Flask, repair: str) -> dict:
    """Check the kept signature with another library than the server's; return what was signed."""
    with app.app_context(), reading() as connection:
        kept = sign_off_of(connection, repair)
        jwk = json.loads(key_by_id(connection, kept.key_id).public_key)
    head, payload, signature = kept.signed_text.split(".")
    x, y = (int.from_bytes(bytes_of(jwk[name]), "big") for name in ("x", "y"))
    key = ec.EllipticCurvePublicNumbers(x, y, ec.SECP256R1()).public_key()
    raw = bytes_of(signature)
    der = encode_dss_signature(int.from_bytes(raw[:32], "big"), int.from_bytes(raw[32:], "big"))
    key.verify(der, f"{head}.{payload}".encode(), ec.ECDSA(hashes.SHA256()))
    assert json.loads(bytes_of(head))["alg"] == "ES256"
    return json.loads(bytes_of(payload))


def one_record(gated: GatedServer, repair: str) -> None:
    assert supervised_repairs(gated.app).count(repair) == 1
    assert receipts(gated.app, "sign-off") == 1
    assert verified(gated.app, repair)["id"] == repair


def the_photo_is_kept_without_its_place(gated: GatedServer, repair: str) -> None:
    with gated.app.app_context(), reading() as connection:
        (photo,) = photos_of(connection, repair)
    signed = record_of(gated.app, repair).observation.photos
    assert [(one.id, one.sha256) for one in signed] == [(photo.id, photo.sha256)]
    instance = gated.app.extensions["lowport_settings"].instance
    copy = Image.open(photo_file(instance, photo.id))
    assert copy.format == "JPEG"
    assert not copy.getexif()
    assert copy.size == (photo.width, photo.height)


def held_text(app: Flask, repair: str) -> str:
    with app.app_context(), reading() as connection:
        return sign_off_of(connection, repair).signed_text
