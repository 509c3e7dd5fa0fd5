"""Events to plain data and back. Stored forms are kept for ever; older ones are lifted on read."""

from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from datetime import date, datetime
from functools import cache
from typing import Any, TypeAlias

from app.records.events import KINDS, Event
from app.records.ledger.canonical import Data
from app.records.reading import Malformed, mapping, read

Stored: TypeAlias = dict[str, object]

# (kind, version) -> the same record in the form of the next version.
UPCASTS: Mapping[tuple[str, int], Callable[[Stored], Stored]] = {}


class UnknownKind(Malformed):
    """A kind of record this program does not know. Guessing would change somebody's standing."""


class UnknownVersion(Malformed):
    """A form of a record newer than this program, or without a way to the present one."""


def data_of(event: Event) -> dict[str, Data]:
    """An event as plain data with its kind and version, every field present.

    Example: ``data_of(quiz)["kind"] == "quiz"``.
    """
    return {"kind": event.kind, "version": event.version, **_plain_fields(event)}


def _plain_fields(thing: Any) -> dict[str, Data]:
    kind: Any = type(thing)
    return {name: _plain(getattr(thing, name)) for name in _names(kind)}


@cache
def _names(kind: Any) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind))


def _plain(value: object) -> Data:
    if value is None or isinstance(value, str | bool | int):
        return value
    if isinstance(value, datetime):
        return stamp(value)
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, tuple):
        return [_plain(item) for item in value]
    if is_dataclass(value):
        return _plain_fields(value)
    raise TypeError(f"{value!r} has no stored form")


def stamp(moment: datetime) -> str:
    """A UTC time as text of one length, so that it sorts as text.

    Example: "2024-02-29T18:00:00.000000Z".
    """
    return moment.replace(tzinfo=None).isoformat(timespec="microseconds") + "Z"


def event_of(
    data: object,
    place: str = "record",
    upcasts: Mapping[tuple[str, int], Callable[[Stored], Stored]] = UPCASTS,
) -> Event:
    """The event in stored data, lifted to the present form.

    data: a mapping with kind and version (1 if left out); upcasts: for tests. Returns an Event.
    Raises UnknownKind, UnknownVersion, Malformed, each with the place.
    Example: ``event_of(data_of(quiz)) == quiz``.
    """
    given = dict(mapping(data, place))
    name = given.pop("kind", "")
    kind = KINDS.get(name) if isinstance(name, str) else None
    if kind is None:
        raise UnknownKind(place=f"{place}.kind", reason=f"there is no kind {name!r}.")
    version = given.pop("version", 1)
    while version != kind.version:
        if not isinstance(version, int) or (kind.kind, version) not in upcasts:
            reason = f"{kind.kind} is known up to version {kind.version}, not {version!r}."
            raise UnknownVersion(place=f"{place}.version", reason=reason)
        given = upcasts[kind.kind, version](given)
        version += 1
    return read(kind, given, place)
