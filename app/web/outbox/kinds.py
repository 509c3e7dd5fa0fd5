"""What a phone may send: a table from kind to what is done with it, filled by the factory.

Each audience's package lists its kinds (``KINDS`` in its outbox_kinds.py); the factory hands the
lists to ``register_kinds``. A handler runs inside the writing transaction that also keeps the
receipt, so what it does is done exactly once. It returns a small dict for the receipt, which the
phone gets back under ``result``, or raises ItemRefused with a 4xx and a sentence for the person.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from flask import Flask, current_app
from sqlalchemy import Connection

from app.accounts.devices import Device
from app.accounts.people import Person
from app.web.outbox.items import Item, ItemRefused
from app.web.outbox.phone_time import PhoneTime

ITEM_BYTES = 16 * 1024


@dataclass(frozen=True, slots=True)
class Arrival:
    """An item as it came in: whose it is, from which phone, when, and who carried it.

    ``carried_by`` is None when the person's own session sent it; otherwise the trainer or safety
    officer who brought the file in.
    """

    item: Item
    person: Person
    device: Device
    arrived_at: datetime
    carried_by: Person | None = None

    @property
    def time(self) -> PhoneTime:
        """The phone's claim, the last server time it had seen, and the arrival."""
        return PhoneTime(self.item.claimed_at, self.item.server_seen_at, self.arrived_at)


Handler = Callable[[Connection, Arrival], dict[str, Any]]


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of item.

    ``role``: whoever sends it must hold it ("" for anybody). ``largest``: bytes of one item.
    ``may_come_by_file``: may be brought in by somebody else. ``takes_revoked``: is taken in even
    from a phone reported lost (the handler must then look at ``arrival.device.is_revoked``).
    """

    name: str
    handler: Handler
    role: str = ""
    largest: int = ITEM_BYTES
    may_come_by_file: bool = True
    takes_revoked: bool = False


def register_kinds(app: Flask, kinds: Iterable[Kind]) -> None:
    """Add kinds to the app's table; a name twice stops the start."""
    table = app.extensions.setdefault("lowport_outbox_kinds", {})
    for kind in kinds:
        if kind.name in table:
            raise ValueError(f"two kinds of outbox item are called {kind.name}")
        table[kind.name] = kind


def kind_named(name: str) -> Kind:
    """Return the kind of that name; ItemRefused when there is none."""
    found = current_app.extensions["lowport_outbox_kinds"].get(name)
    if not isinstance(found, Kind):
        raise ItemRefused(422, "unknown-kind", f"This server takes nothing called {name}.")
    return found


def _throw_away(_connection: Connection, arrival: Arrival) -> dict[str, Any]:
    return {"thrown_away": str(arrival.item.payload.get("kind", ""))[:40]}


# Whoever throws a thing away sends its number all the same, so that no gap stays without a reason.
OWN_KINDS = (Kind("thrown-away", _throw_away, takes_revoked=True),)
