"""The watched person's own word for supervised repairs: which wait for it, and giving it."""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction

from sqlalchemy import Connection

from app.accounts.printed_names import seal_name
from app.accounts.sign_in import confirm_password
from app.curriculum.model import Curriculum, Measure
from app.ids import new_id
from app.records.deciding.acts import Act
from app.records.deciding.decisions import decide_worker_countersign
from app.records.deciding.manifesting import signed
from app.records.events import Event, Practical
from app.records.ledger.door import Receipt, append, event_by_id, history_of, receipt_of
from app.records.observation import Measured, StepOutcome
from app.records.policy import policy_from
from app.records.standing.counting import is_worker_countersigned
from app.records.standing.settling import Settled, settle
from app.trade.errors import Refusal
from app.trade.showing import show
from app.trade.units import UNITS
from app.worker.actions import Doer


@dataclass(frozen=True, slots=True)
class Waiting:
    """A supervised repair that its worker is asked about."""

    id: str
    qualification: str
    job: str
    occurred_on: date
    is_required: bool


def waiting_for(connection: Connection, curriculum: Curriculum, person_id: str) -> list[Waiting]:
    """A person's supervised repairs they may confirm and have not, the newest first."""
    return waiting_in(settle(history_of(connection, person_id)), curriculum, person_id)


def waiting_in(settled: Settled, curriculum: Curriculum, person_id: str) -> list[Waiting]:
    """The same from a history that was read already."""
    policy = policy_from(curriculum)
    found = []
    for event in settled.about(person_id, date.max):
        rule = policy.qualifications.get(event.qualification)
        if not isinstance(event, Practical) or rule is None or rule.worker_countersign == "off":
            continue
        if not is_worker_countersigned(settled, event):
            required = rule.worker_countersign == "required"
            found.append(
                Waiting(event.id, event.qualification, event.job, event.occurred_on, required)
            )
    return found[::-1]


@dataclass(frozen=True, slots=True)
class StepLine:
    """A step of the checklist: its text, how it went, and what was measured with it.

    measured: pairs of the value in words and whether it was within its limits; None: it had none.
    """

    text: str
    outcome: StepOutcome
    measured: tuple[tuple[str, bool | None], ...]


@dataclass(frozen=True, slots=True)
class OwnRepair:
    """A supervised repair as its worker reads it. confirmed: the receipt of their own word."""

    event: Practical
    steps: dict[str, tuple[StepLine, ...]]
    is_void: bool
    confirmed: Receipt | None


def own_repair(
    connection: Connection, curriculum: Curriculum, repair: str, doer: Doer
) -> OwnRepair | None:
    """Return the whole of a person's own supervised repair; None if it is nobody's or another's."""
    event = event_by_id(connection, repair)
    settled = settle(history_of(connection, doer.person_id))
    if not isinstance(event, Practical) or not _is_of(settled, event, doer):
        return None
    return OwnRepair(
        event=event,
        steps=_steps(curriculum, event, doer),
        is_void=event.id in settled.voided,
        confirmed=_given(connection, settled, repair),
    )


def _is_of(settled: Settled, event: Event, doer: Doer) -> bool:
    return settled.who(event.person) == settled.who(doer.person_id)


def _given(connection: Connection, settled: Settled, repair: str) -> Receipt | None:
    said = settled.worker_countersigns.get(repair, ())
    return receipt_of(connection, said[0].id) if said else None


def _steps(curriculum: Curriculum, event: Practical, doer: Doer) -> dict[str, tuple[StepLine, ...]]:
    found: dict[str, tuple[StepLine, ...]] = {}
    seen = event.observation
    for outcome in seen.items if seen else ():
        module = curriculum.modules.get(outcome.module)
        items = {item.id: item for item in module.checklist} if module else {}
        item = items.get(outcome.step)
        labels = {one.id: one for one in item.measures} if item else {}
        measured = [
            m for m in seen.measured if (m.module, m.step) == (outcome.module, outcome.step)
        ]
        line = StepLine(
            item.text.in_language(doer.language) if item else outcome.step,
            outcome,
            tuple((_told(m, labels.get(m.name), doer), m.is_within) for m in measured),
        )
        found[outcome.module] = (*found.get(outcome.module, ()), line)
    return found


def _told(one: Measured, measure: Measure | None, doer: Doer) -> str:
    label = measure.label.in_language(doer.language) if measure else one.name
    unit = UNITS.get(one.unit)
    if unit is None:
        return f"{label}: {one.value} {one.unit}".strip()
    return f"{label}: {show(Fraction(one.value), unit.quantity, doer.units)}"


def port_rows(event: Practical, units: str) -> list[dict[str, str]]:
    """Return the lines of the port log ready to print, the pressure in the reader's units."""
    return [
        {
            "port": str(line.port),
            "opened": line.opened_at or "",
            "showed_at": str(line.next_port or ""),
            "time": line.shown_at or "",
            "pressure": show(Fraction(line.pressure_mpa), "pressure", units)
            if line.pressure_mpa
            else "",
            "note": line.note or "",
        }
        for line in (event.observation.ports if event.observation else ())
    ]


def confirm(
    connection: Connection, curriculum: Curriculum, repair: str, password: str, doer: Doer
) -> Receipt | Refusal:
    """Record that the person says they did this repair. Twice, it gives the first receipt."""
    event = event_by_id(connection, repair)
    history = history_of(connection, doer.person_id)
    earlier = _given(connection, settle(history), repair)
    if earlier is not None:
        return earlier
    refusal = confirm_password(connection, doer.person_id, password, doer.now)
    if refusal is not None:
        return refusal
    act = Act(
        id=new_id(), by=doer.person_id, now=doer.now, occurred_on=doer.today, zone=doer.zone.key
    )
    try:
        rule = policy_from(curriculum).rule(event.qualification if event else "")
        made = decide_worker_countersign(history, rule, act, target=repair)
    except Refusal as refused:
        return refused
    seal = seal_name(connection, doer.person_id, doer.name)
    return append(connection, signed(made, seal, doer.language))
