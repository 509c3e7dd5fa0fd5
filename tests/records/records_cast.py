"""An invented cast and the base history of the scenarios: worker W, trainers A1, A2, officer M1."""

import json
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from typing import Any

from click.testing import Result

from app.records.deciding.decisions import Act
from app.records.events import (
    ContentRevised,
    CounterEntry,
    Countersign,
    Event,
    Grant,
    IdentityMerged,
    Practical,
    Quiz,
    TrainerAuthorised,
    Training,
    Use,
)
from app.records.observation import Measured, Observation, PortEntry, Signature, StepOutcome
from app.records.policy import Policy, QualificationPolicy
from app.records.standing.definition import Standing, standing

SCENARIOS: dict[str, Any] = json.loads((Path(__file__).parent / "scenarios.json").read_text())
Run = Callable[..., Result]  # a command, as somebody would type it
LEAD = "lead"
RULE = QualificationPolicy(id=LEAD, modules=(LEAD,))
POLICY = Policy({LEAD: RULE})


def day(text: str) -> date:
    return date.fromisoformat(text)


def on(text: str, **more: Any) -> dict[str, Any]:
    """The common fields of something that happened on a day and was recorded at 18:00 UTC."""
    recorded_at = datetime.combine(day(text), time(18), UTC)
    return {"occurred_on": day(text), "zone": "UTC", "recorded_at": recorded_at, **more}


def authorised(trainer: str, text: str = "2020-01-01") -> TrainerAuthorised:
    return TrainerAuthorised(id=f"auth-{trainer}", person=trainer, qualification=LEAD, **on(text))


def training(name: str, text: str, revision: int = 1, **more: Any) -> Training:
    values = {"person": "W", "module": LEAD, "revision": revision, "trainer": "T1", **more}
    return Training(id=name, **values, **on(text))


def quiz(name: str, text: str, **more: Any) -> Quiz:
    values = {"person": "W", "module": LEAD, "passed": True, "right": 9, "asked": 10, **more}
    return Quiz(id=name, **values, **on(text))


def practical(name: str, text: str, job: str, trainer: str, **more: Any) -> Practical:
    values = {"person": "W", "qualification": LEAD, "job": job, "trainer": trainer}
    return Practical(id=name, **{**on(text), **values, **more})


def use(name: str, text: str, trainer: str = "A1", **more: Any) -> Use:
    values = {"person": "W", "qualification": LEAD, "trainer": trainer}
    return Use(id=name, **{**on(text), **values, **more})


def decided(kind: type, name: str, text: str, **more: Any) -> Any:
    values = {"person": "W", "qualification": LEAD, "decider": "M1", **more}
    return kind(id=name, **values, **on(text))


def countered(name: str, text: str, target: str, **more: Any) -> CounterEntry:
    values = {"person": "W", "reason": "Wrong person picked.", **more}
    return CounterEntry(id=name, target=target, **{**on(text), **values})


def countersigned(name: str, text: str, target: str, trainer: str) -> Countersign:
    return Countersign(id=name, person="W", target=target, trainer=trainer, **on(text))


def merged(name: str, text: str, kept: str, other: str) -> IdentityMerged:
    return IdentityMerged(id=name, person=kept, merged=other, reason="Entered twice.", **on(text))


def base() -> list[Event]:
    """The base history of assessment section 5."""
    return [
        authorised("A1"),
        authorised("A2"),
        training("t1", "2024-01-10"),
        quiz("q1", "2024-01-12"),
        practical("p1", "2024-01-20", "R1", "A1"),
        practical("p2", "2024-02-10", "R2", "A2"),
        decided(Grant, "g1", "2024-02-29"),
    ]


def without(events: list[Event], *ids: str) -> list[Event]:
    return [event for event in events if event.id not in ids]


def again(event: Event, hours: int = 1) -> Event:
    """The same event arriving once more."""
    return replace(event, recorded_at=event.recorded_at + timedelta(hours=hours))


def ask(events: list[Event], text: str, known: str | None = None, **more) -> Standing:
    policy = Policy({LEAD: replace(RULE, **more)}) if more else POLICY
    return standing(events, policy, "W", LEAD, day(text), day(known) if known else None)


def whys(answer: Standing, event: str) -> list[str]:
    found = [entry.whys for entry in answer.not_counted if entry.event == event]
    return [why.code for reasons in found for why in reasons]


def revised(name: str, text: str, revision: int, change: str) -> ContentRevised:
    return ContentRevised(id=name, module=LEAD, revision=revision, change=change, **on(text))


def observation(**more: Any) -> Observation:
    """A whole supervised repair as a trainer signs it; all invented."""
    items = (
        StepOutcome(
            module="ratio-sample", step="ratio-in-tolerance", outcome="done", rule_met=True
        ),
        StepOutcome(module="port-setting", step="ports-at-ends", outcome="done", critical=False),
    )
    signature = Signature(
        printed_name="Ana Invented",
        meaning="I watched this repair from start to end.",
        signed_at=datetime(2024, 2, 10, 18, tzinfo=UTC),
    )
    values: dict[str, Any] = {
        "items": items,
        "judgement": "works-safely-alone",
        "signature": signature,
        "measured": (Measured(name="sample_b", value="118.5", unit="ml", low="114", high="126"),),
        "given": (Measured(name="resin_parts_a", value="2", unit="parts"),),
        "ports": (PortEntry(port=1, next_port=2, shown_at="14:05", pressure_mpa="0.4"),),
    }
    return Observation(**{**values, **more})


NOW = datetime(2024, 3, 10, 18, tzinfo=UTC)
UNGRANTED = without(base(), "g1")


def act(by: str, text: str = "2024-03-10", **more: Any) -> Act:
    values: dict[str, Any] = {"id": "new", "by": by, "now": NOW, "zone": "UTC"}
    return Act(**{**values, "occurred_on": day(text), **more})
