"""One thing a phone sends, as its exact bytes say it; what is unclear is refused with its place."""

import hashlib
import json
import re
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from flask_babel import gettext as _

from app.web.unkeepable import has_unkeepable

_ID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}")
_KIND = re.compile(r"[a-z][a-z-]{1,38}[a-z]")
FIELDS = (
    *("version", "id", "kind", "person", "device", "sequence"),
    *("claimed_at", "server_seen_at", "payload"),
)
LARGEST_SEQUENCE = 2**31 - 1


class ItemRefused(Exception):
    """An item that is not taken in. ``code`` is a short name, ``detail`` the page's sentence.

    ``status`` 4xx: the phone keeps the item under "needs attention" and shows the sentence.
    """

    def __init__(self, status: int, code: str, detail: str) -> None:
        self.status, self.code, self.detail = status, code, detail
        super().__init__(f"{status} {code}: {detail}")


@dataclass(frozen=True, slots=True)
class Item:
    """An item as the phone wrote it. ``digest`` is the SHA-256 of ``text`` in UTF-8."""

    id: str
    kind: str
    person_id: str
    device_id: str
    sequence: int
    claimed_at: datetime
    server_seen_at: datetime | None
    payload: dict[str, Any]
    text: str = field(repr=False)

    @property
    def digest(self) -> str:
        """The hash by which the same bytes are known again."""
        return hashlib.sha256(self.text.encode()).hexdigest()

    def value(self, name: str, kind: type) -> Any:
        """A value of the payload; ItemRefused when it is missing or of another type."""
        found = self.payload.get(name)
        if not isinstance(found, kind) or (isinstance(found, bool) and kind is not bool):
            raise malformed(f"payload.{name}", found)
        return found


def malformed(place: str, found: object) -> ItemRefused:
    """The refusal of an item whose form is wrong at one place."""
    return ItemRefused(422, "malformed", f"{place} can't be {found!r:.80}.")


def read_item(text: str) -> Item:
    """Read an item from its bytes; raises ItemRefused."""
    try:
        said = json.loads(text)
    except ValueError as wrong:
        raise ItemRefused(422, "malformed", "An item must be JSON.") from wrong
    if not isinstance(said, dict) or sorted(said) != sorted(FIELDS):
        raise ItemRefused(422, "malformed", f"An item has exactly: {', '.join(FIELDS)}.")
    if has_unkeepable(said):
        raise ItemRefused(
            422,
            "unkeepable",
            _("There is a character in it that can't be kept. Type it again by hand."),
        )
    if said["version"] != 1:
        raise malformed("version", said["version"])
    sequence = said["sequence"]
    if type(sequence) is not int or not 1 <= sequence <= LARGEST_SEQUENCE:
        raise malformed("sequence", sequence)
    if not isinstance(said["payload"], dict):
        raise malformed("payload", said["payload"])
    seen = said["server_seen_at"]
    return Item(
        id=_matching(said, "id", _ID),
        kind=_matching(said, "kind", _KIND),
        person_id=_matching(said, "person", _ID),
        device_id=_matching(said, "device", _ID),
        sequence=sequence,
        claimed_at=_moment("claimed_at", said["claimed_at"]),
        server_seen_at=None if seen is None else _moment("server_seen_at", seen),
        payload=said["payload"],
        text=text,
    )


def _matching(said: dict[str, Any], name: str, pattern: re.Pattern[str]) -> str:
    value = said[name]
    if not isinstance(value, str) or not pattern.fullmatch(value):
        raise malformed(name, value)
    return value


def _moment(name: str, value: object) -> datetime:
    """A time with its offset, as in 2026-03-02T09:14:05-05:00."""
    try:
        moment = datetime.fromisoformat(value) if isinstance(value, str) else None
    except ValueError:
        moment = None
    if moment is None or moment.tzinfo is None or not 1970 < moment.year < 9000:
        raise malformed(name, value)
    return moment
