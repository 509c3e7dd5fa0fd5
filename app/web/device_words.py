"""How a repair was signed on a phone, in words: the way, the three times, what is odd."""

from dataclasses import dataclass
from datetime import datetime

from flask_babel import format_datetime
from flask_babel import gettext as _

from app.records.events import Practical
from app.web.outbox.phone_time import PhoneTime


@dataclass(frozen=True, slots=True)
class SignedOnPhone:
    """Ready to print. ``seen`` is "" where the phone had seen no time of ours yet."""

    way: str
    device_id: str
    sequence: int
    claimed: str
    seen: str
    doubt: str
    is_lost: bool


def signed_on_phone(event: object) -> SignedOnPhone | None:
    """How a supervised repair was signed on a phone; None for everything else."""
    observation = event.observation if isinstance(event, Practical) else None
    if not isinstance(event, Practical) or observation is None or observation.device is None:
        return None
    device = observation.device
    claimed = datetime.fromisoformat(device.claimed_at)
    seen = datetime.fromisoformat(device.server_seen_at) if device.server_seen_at else None
    return SignedOnPhone(
        way=_("Signed on a phone, with its key")
        if observation.signature.way == "device"
        else _("Noted on a phone, signed later with the password"),
        device_id=device.device,
        sequence=device.sequence,
        claimed=phone_moment(claimed),
        seen=phone_moment(seen) if seen else "",
        doubt=_doubt(PhoneTime(claimed, seen, event.recorded_at)),
        is_lost=event.flag == "device-revoked",
    )


def phone_moment(moment: datetime) -> str:
    """A time as the phone said it, in its own offset: 2 Mar 2026, 09:00:00 −05:00."""
    offset = moment.strftime("%z")
    sign = "−" if offset.startswith("-") else "+"
    wall = format_datetime(moment.replace(tzinfo=None), "d MMM y, HH:mm:ss", rebase=False)
    return f"{wall} {sign}{offset[1:3]}:{offset[3:5]}"


def _doubt(time: PhoneTime) -> str:
    if time.doubt == "after-arrival":
        return _("The phone's clock was ahead: it says later than it arrived.")
    if time.doubt == "before-last-seen":
        return _("The phone's clock was behind: it says earlier than a time of ours it had seen.")
    return ""
