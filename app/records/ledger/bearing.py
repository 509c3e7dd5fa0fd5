"""Reading, in columns only, the records that bear on one person's standing and no others."""

from collections.abc import Iterable, Sequence

from sqlalchemy import ColumnElement, Connection, bindparam, select

from app.records.events import Countersign, Decided, Event, Quiz, Training, Watched
from app.records.ledger.columns import LIGHT, light_event
from app.records.ledger.shared_records import SharedRecords
from app.records.ledger.tables import record

_COLUMNS = [record.c[name] for name in LIGHT]


def _among(column: ColumnElement[str], name: str) -> ColumnElement[bool]:
    return column.in_(bindparam(name, expanding=True))


_OWN = select(*_COLUMNS).where(_among(record.c.person, "people"), record.c.is_shared == 0)
_OF_ONE = _OWN.where(_among(record.c.qualification, "qualifications"))
_POINTING_TO = select(*_COLUMNS).where(_among(record.c.target, "targets"))
_POINTING_KINDS = ("counter-entry", "countersign", "worker-countersign")
_AT_ONCE = 500  # bound values in one statement


def events_bearing_on(
    connection: Connection, shared: SharedRecords, person: str, qualification: str | None = None
) -> list[Event]:
    """Every light event that may say something about a person's standing, each once.

    qualification: only what may bear on this one; None: on any. In no particular order.
    """
    own = _own(connection, shared.ids_of(person), qualification)
    return [*own, *shared.bearing_on(named_in(own, person))]


def _own(connection: Connection, people: Iterable[str], qualification: str | None) -> list[Event]:
    values: dict[str, list[str]] = {"people": list(people)}
    if qualification is None:
        return [light_event(row) for row in connection.execute(_OWN, values).mappings()]
    values["qualifications"] = ["", qualification]
    rows = connection.execute(_OF_ONE, values).mappings()
    # What points to one of these may have been written under another qualification's name.
    return with_pointing(connection, [light_event(row) for row in rows])


def with_pointing(connection: Connection, events: Iterable[Event]) -> list[Event]:
    """The light events, and all that point to one of them or to what points to it; each once."""
    found = {event.id: event for event in events}
    new = list(found)
    while new:
        pointing = [event for event in _pointing_to(connection, new) if event.id not in found]
        found |= {event.id: event for event in pointing}
        new = [event.id for event in pointing]
    return list(found.values())


def _pointing_to(connection: Connection, targets: list[str]) -> list[Event]:
    found: list[Event] = []
    for start in range(0, len(targets), _AT_ONCE):
        values = {"targets": targets[start : start + _AT_ONCE]}
        rows = connection.execute(_POINTING_TO, values).mappings()
        found += [light_event(row) for row in rows if row["kind"] in _POINTING_KINDS]
    return found


def named_in(own: Sequence[Event], person: str) -> dict[str, set[str]]:
    """The person and whoever taught, examined, watched, decided or countersigned.

    With each, the qualifications in which it matters whether they were authorised to sign.
    """
    targets: dict[str, str] = {}
    named: dict[str, set[str]] = {person: set()}
    for event in own:
        if isinstance(event, Watched):
            named.setdefault(event.trainer, set()).add(event.qualification)
            targets[event.id] = event.qualification
        elif (signer := _signer(event)) and signer not in named:
            named[signer] = set()
    for event in own:
        if isinstance(event, Countersign):
            named.setdefault(event.trainer, set()).add(targets.get(event.target, ""))
    return named


def _signer(event: Event) -> str:
    if isinstance(event, Decided):
        return event.decider
    if isinstance(event, Quiz):
        return event.examiner
    return event.trainer if isinstance(event, Training) else ""
