"""A trainer's phone as the server sees it: reads the page at the wall, signs, sends.

Written beside the phone's own script, from the form that app/trainer/wall/body.py describes; keys
and signatures come from the `cryptography` library.
"""

import base64
import hashlib
import json
import re
from dataclasses import dataclass, field
from html import unescape
from typing import Any
from uuid import uuid4

import rfc8785
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.asymmetric.utils import decode_dss_signature
from flask.testing import FlaskClient

from app.trade.lengths import read_quantity
from app.trainer.numbers import decimal_text
from tests.web.phone import Phone

TYP = "lowport-sign-off+jws"


def base64url(data: bytes) -> str:
    return base64.urlsafe_b64encode(data).rstrip(b"=").decode()


@dataclass
class WallPhone(Phone):
    """A phone with a signing key."""

    key: ec.EllipticCurvePrivateKey = field(
        default_factory=lambda: ec.generate_private_key(ec.SECP256R1())
    )

    @property
    def public_key(self) -> dict[str, str]:
        numbers = self.key.public_key().public_numbers()
        x, y = (base64url(n.to_bytes(32, "big")) for n in (numbers.x, numbers.y))
        return {"crv": "P-256", "kty": "EC", "x": x, "y": y}

    @property
    def kid(self) -> str:
        return base64url(hashlib.sha256(rfc8785.dumps(self.public_key)).digest())

    def jws(self, payload: bytes, typ: str = TYP, **header: Any) -> str:
        head = {"alg": "ES256", "kid": self.kid, "typ": typ} | header
        signed = f"{base64url(rfc8785.dumps(head))}.{base64url(payload)}"
        der = self.key.sign(signed.encode(), ec.ECDSA(hashes.SHA256()))
        r, s = decode_dss_signature(der)
        return f"{signed}.{base64url(r.to_bytes(32, 'big') + s.to_bytes(32, 'big'))}"

    def enrol(self, client: FlaskClient, password: str, **changes: str):
        """Register the phone as the page's form does."""
        page = client.get("/devices").get_data(as_text=True)
        challenge = re.search(r'data-challenge="([^"]+)"', page).group(1)
        told = {"challenge": challenge, "device": self.device, "person": self.person}
        data = {
            "device": self.device,
            "public_key": rfc8785.dumps(self.public_key).decode(),
            "proof": self.jws(rfc8785.dumps(told), "lowport-enrolment+jws"),
            "password": password,
        }
        return client.post("/devices", data=data | changes)

    def sign_off(self, body: dict[str, Any], jws: str = "", **other: Any) -> str:
        """The outbox item of a signed body."""
        signed = jws or self.jws(rfc8785.dumps(body))
        payload = {"repair": body["id"], "way": "device", "signed": signed}
        return self.item("sign-off", payload, **other)


def wall_data(client: FlaskClient, repair: str) -> dict[str, Any]:
    """What the page at the wall carries."""
    answer = client.get(f"/repairs/{repair}/at-the-wall")
    assert answer.status_code == 200, answer.status_code
    found = re.search(r"data-wall='([^']*)'", answer.get_data(as_text=True))
    return json.loads(unescape(found.group(1)))


def body_of(data: dict[str, Any], typed: dict[str, str], **changes: Any) -> dict[str, Any]:
    """Everything done alone, with what was measured; all as the page describes it."""
    copied = ("format", "id", "person", "job", "qualification", "trainer", "occurred_on")
    measured = [
        {
            "module": item["module"],
            "step": item["step"],
            "name": one["id"],
            "typed": typed[one["id"]],
            "value": decimal_text(
                read_quantity(typed[one["id"]], one["quantity"], one["unit"]).value
            ),
        }
        for item in data["items"]
        for one in item["measures"]
    ]
    return {
        **{name: data[name] for name in copied},
        "version": 1,
        "modules": data["modules"],
        "items": [
            {"module": i["module"], "step": i["step"], "outcome": "done", "reason": ""}
            for i in data["items"]
        ],
        "measured": measured,
        "batches": [],
        "ports": [],
        "photos": [],
        "given": [{"name": name, "value": value} for name, value in data["given"].items()],
        "judgement": "works-safely-alone",
        "remarks": "Keep the log.",
        "verdict": "pass",
        "printed_name": data["printed_name"],
        "meaning": data["meaning"],
        "language": data["language"],
        "signed_at": "2026-03-02T14:00:00.000Z",
    } | changes


def photo_item(phone: Phone, repair: str, jpeg: bytes, /, **changes: Any) -> str:
    """The outbox item of a photo."""
    payload = {
        "photo": str(uuid4()),
        "repair": repair,
        "module": "",
        "step": "",
        "sha256": hashlib.sha256(jpeg).hexdigest(),
        "data": base64.b64encode(jpeg).decode(),
    }
    return phone.item("photo", payload | changes)
