"""Which columns repeat which fields of an event, and the light event read back from them.

A light event has everything a standing is judged by and nothing more: no observation, no free
text. The test of equal standings from full and light events holds the two together.
"""

import json
from dataclasses import fields
from datetime import date, datetime
from typing import Any, Protocol

from app.records.events import KINDS, Event
from app.records.ledger.encoding import stamp
from app.records.observation import StepOutcome


class Row(Protocol):
    """A row of the LIGHT columns, asked by name."""

    def __getitem__(self, name: str, /) -> Any: ...


# column -> fields that may stand in it; a kind has at most one of them
_SOURCES = {
    "person": ("person",),
    "qualification": ("qualification",),
    "recorded_by": ("recorded_by",),
    "module": ("module",),
    "revision": ("revision",),
    "trainer": ("trainer", "examiner", "decider"),
    "job": ("job",),
    "is_passed": ("passed",),
    "critical": ("critical",),
    "target": ("target", "merged", "about"),
    "change": ("change",),
    "flag": ("flag",),
}
SHARED_KINDS = frozenset(
    {"trainer-authorised", "trainer-withdrawn", "content-revised", "identity-merged"}
)
LIGHT = ("id", "kind", "occurred_on", "zone", "recorded_at", *_SOURCES)


def _fields_of(kind: type[Event]) -> tuple[tuple[str, str], ...]:
    """(column, field) for each column that a kind fills."""
    names = {field.name for field in fields(kind)}
    return tuple(
        (column, name) for column, own in _SOURCES.items() for name in own if name in names
    )


_OF_KIND = {name: _fields_of(kind) for name, kind in KINDS.items()}


def columns_of(event: Event) -> dict[str, Any]:
    """The values of the repeating columns for an event."""
    row: dict[str, Any] = {
        "id": event.id,
        "kind": event.kind,
        "occurred_on": event.occurred_on.isoformat(),
        "zone": event.zone,
        "recorded_at": stamp(event.recorded_at),
    }
    for column, name in _OF_KIND[event.kind]:
        row[column] = _written(column, getattr(event, name))
    return row


def _written(column: str, value: Any) -> Any:
    if column == "is_passed":
        return int(value)
    if column == "critical":
        return _critical_text(value) if value else ""
    return value


def _critical_text(steps: tuple[StepOutcome, ...]) -> str:
    rows = [[s.module, s.step, s.outcome, s.rule_met] for s in steps]
    return json.dumps(rows, separators=(",", ":"))


def light_event(row: Row) -> Event:
    """The light event in a row of the LIGHT columns. Raises KeyError for an unknown kind."""
    values: dict[str, Any] = {
        "id": row["id"],
        "occurred_on": date.fromisoformat(row["occurred_on"]),
        "zone": row["zone"],
        "recorded_at": datetime.fromisoformat(row["recorded_at"]),
    }
    for column, name in _OF_KIND[row["kind"]]:
        values[name] = _read(column, row[column])
    return KINDS[row["kind"]](**values)


def _read(column: str, value: Any) -> Any:
    if column == "is_passed":
        return bool(value)
    if column == "critical":
        return _critical_steps(value) if value else ()
    return value


def _critical_steps(text: str) -> tuple[StepOutcome, ...]:
    return tuple(
        StepOutcome(module=module, step=step, outcome=outcome, rule_met=rule_met)
        for module, step, outcome, rule_met in json.loads(text)
    )
