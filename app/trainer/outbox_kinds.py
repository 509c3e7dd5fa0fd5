"""What a trainer's phone sends once it has signal: sign-offs, and the photos that go with them."""

from typing import Any

from sqlalchemy import Connection

from app.trainer.blueprint import curriculum
from app.trainer.doing import Doer
from app.trainer.wall.photo_taking import LARGEST_ITEM, take_photo
from app.trainer.wall.signing import Sent, hold, record_signed
from app.web.now import zone
from app.web.outbox.items import malformed
from app.web.outbox.kinds import Arrival, Kind
from app.workbook.sign_offs import PhoneSignOff

LARGEST_SIGN_OFF = 128 * 1024


def take_sign_off(connection: Connection, arrival: Arrival) -> dict[str, Any]:
    """Record what a phone's key signed, or hold it for the password; ``payload``: way, signed."""
    way, signed = arrival.item.value("way", str), arrival.item.value("signed", str)
    asked = sent_by(arrival)
    if way == "device":
        receipt = record_signed(connection, asked, signed)
        return {"state": "recorded", "record": receipt.id, "number": receipt.seq}
    if way == "password":
        held = hold(connection, asked, signed)
        return {"state": "held", "record": held.observation_id}
    raise malformed("payload.way", way)


def sent_by(arrival: Arrival) -> Sent:
    """The sign-off with the three times: the phone's, the last of ours it saw, the arrival."""
    item = arrival.item
    seen = item.server_seen_at
    return Sent(
        curriculum=curriculum(),
        doer=Doer(arrival.person.id, arrival.person.name, arrival.arrived_at, zone()),
        sent=PhoneSignOff(
            observation_id=item.value("repair", str),
            way="",
            signed_text="",
            key_id="",
            device_id=arrival.device.id,
            sequence=item.sequence,
            claimed_at=item.claimed_at.isoformat(),
            server_seen_at=seen.isoformat() if seen else "",
            arrived_at=arrival.arrived_at.replace(tzinfo=None),
        ),
        is_device_revoked=arrival.device.is_revoked,
    )


KINDS = (
    Kind(
        "sign-off",
        take_sign_off,
        role="trainer",
        largest=LARGEST_SIGN_OFF,
        takes_revoked=True,
    ),
    Kind("photo", take_photo, role="trainer", largest=LARGEST_ITEM, takes_revoked=True),
)
