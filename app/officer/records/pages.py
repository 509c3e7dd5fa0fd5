"""One record: what it says, what bears on it, its place in the chain. No Flask here."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sqlalchemy import Connection, func, select

from app.curriculum.bundles import POLICY
from app.curriculum.model import Curriculum
from app.officer.telling import Telling
from app.records.events import (
    ContentRevised,
    CorrectionProposed,
    CounterEntry,
    Event,
    Grant,
    Practical,
)
from app.records.ledger.door import Receipt, event_by_id, history_of, receipt_of
from app.records.ledger.proposals import pointing_to
from app.records.ledger.tables import record
from app.records.observation import Measured, Observation, StepOutcome
from app.records.standing.settling import settle


@dataclass(frozen=True, slots=True)
class Value:
    """A measured or given value as signed: label, value with unit, limits or "", within or None."""

    label: str
    value: str
    limits: str
    is_within: bool | None


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the checklist as it was seen."""

    text: str
    outcome: StepOutcome
    values: tuple[Value, ...]


@dataclass(frozen=True, slots=True)
class RecordPage:
    """steps: by module id; voided_by: the counter-entry in force; linked: records it points to."""

    event: Event
    receipt: Receipt
    records: int
    voided_by: CounterEntry | None
    pointing: tuple[Event, ...]
    linked: tuple[Event, ...]
    steps: dict[str, tuple[Step, ...]]
    other_values: tuple[Value, ...]
    given: tuple[Value, ...]
    policy_sha256: str

    @property
    def observation(self) -> Observation | None:
        """What a trainer signed, for a supervised repair."""
        return self.event.observation if isinstance(self.event, Practical) else None


def record_page(
    connection: Connection, curriculum: Curriculum, record_id: str, telling: Telling
) -> RecordPage | None:
    """Gather the page of a record; None if there is no such record."""
    event, receipt = event_by_id(connection, record_id), receipt_of(connection, record_id)
    if event is None or receipt is None:
        return None
    history = history_of(connection, *([event.person] if event.person else []))
    if isinstance(event, CorrectionProposed):
        history = [*history, *pointing_to(connection, {event.id})]
    by_id = {one.id: one for one in history}
    voided_by = by_id.get(settle(history).voided.get(event.id, ""))
    seen = event.observation if isinstance(event, Practical) else None
    steps = _steps(seen, curriculum, telling) if seen else {}
    own = {(name, step.outcome.step) for name, listed in steps.items() for step in listed}
    return RecordPage(
        event=event,
        receipt=receipt,
        records=connection.scalar(select(func.max(record.c.seq))) or 0,
        voided_by=voided_by if isinstance(voided_by, CounterEntry) else None,
        pointing=tuple(e for e in by_id.values() if event.id in _pointed(e)),
        linked=tuple(by_id[name] for name in _links(event) if name in by_id),
        steps=steps,
        other_values=_values(
            (m for m in seen.measured if (m.module, m.step) not in own) if seen else (),
            telling,
        ),
        given=_values(seen.given if seen else (), telling),
        policy_sha256=_policy_text(history, event),
    )


def _policy_text(history: Iterable[Event], event: Event) -> str:
    """The hash of the policy that a grant was decided by; "" where it was never approved here."""
    version = event.policy_version if isinstance(event, Grant) else ""
    named = (
        one.sha256
        for one in history
        if isinstance(one, ContentRevised) and one.module == POLICY and one.label == version
    )
    return next(named, "") if version else ""


def _links(event: Event) -> tuple[str, ...]:
    return (*_pointed(event), *getattr(event, "evidence", ()))


def _pointed(event: Event) -> tuple[str, ...]:
    """The records this one says something about."""
    named = (getattr(event, name, "") for name in ("target", "about", "proposal"))
    return tuple(filter(None, named))


def _steps(
    seen: Observation, curriculum: Curriculum, telling: Telling
) -> dict[str, tuple[Step, ...]]:
    found: dict[str, tuple[Step, ...]] = {}
    for outcome in seen.items:
        values = [m for m in seen.measured if (m.module, m.step) == (outcome.module, outcome.step)]
        text, labels = _item_words(curriculum, outcome, telling.language)
        step = Step(text, outcome, _values(values, telling, labels))
        found[outcome.module] = (*found.get(outcome.module, ()), step)
    return found


def _item_words(
    curriculum: Curriculum, outcome: StepOutcome, language: str
) -> tuple[str, dict[str, str]]:
    """The item's text and its measures' labels; plain ids where the content no longer has it."""
    module = curriculum.modules.get(outcome.module)
    items = {item.id: item for item in module.checklist} if module else {}
    item = items.get(outcome.step)
    if item is None:
        return outcome.step.replace("-", " "), {}
    labels = {m.id: m.label.in_language(language) for m in item.measures}
    return item.text.in_language(language), labels


def _values(
    measured: Iterable[Measured], telling: Telling, labels: Mapping[str, str] | None = None
) -> tuple[Value, ...]:
    known = labels or {}
    return tuple(
        _value(m, known.get(m.name) or telling.value_name(m.name), telling) for m in measured
    )


def _value(one: Measured, label: str, telling: Telling) -> Value:
    def told(value: str) -> str:
        return telling.measured(value, one.unit)

    limits = ""
    if one.low is not None and one.high is not None:
        limits = f"{told(one.low)} – {told(one.high)}"
    elif one.low is not None:
        limits = f"≥ {told(one.low)}"
    elif one.high is not None:
        limits = f"≤ {told(one.high)}"
    return Value(label, told(one.value), limits, one.is_within)
