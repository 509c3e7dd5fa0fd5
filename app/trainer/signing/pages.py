"""A supervised repair as it is signed, grouped for reading; and lists of records. No Flask here."""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection

from app.curriculum.model import ChecklistItem, Curriculum, Measure
from app.curriculum.scoring import NotScorable, Score, Seen, score_observation
from app.records.events import CounterEntry, Countersign, Watched, WorkerCountersign
from app.records.ledger.bearing import events_bearing_on, with_pointing
from app.records.ledger.door import history_of
from app.records.ledger.shared_records import shared_records
from app.records.ledger.watched_records import came_later, newest_signed
from app.records.observation import Measured, Observation, StepOutcome
from app.records.policy import Policy, QualificationPolicy
from app.records.standing.counting import is_countersigned, needs_countersign
from app.records.standing.settling import Settled, settle

NEWEST = 50


@dataclass(frozen=True, slots=True)
class ItemLine:
    """One item as signed; `item` is None where the checklist no longer has it."""

    item: ChecklistItem | None
    outcome: StepOutcome
    measured: tuple[tuple[Measure | None, Measured], ...]


@dataclass(frozen=True, slots=True)
class ModuleLines:
    """One checklist as signed."""

    module_id: str
    lines: tuple[ItemLine, ...]


def module_lines(curriculum: Curriculum, observation: Observation) -> list[ModuleLines]:
    """What was seen and measured, by module, in the order it was signed."""
    names = dict.fromkeys(outcome.module for outcome in observation.items)
    return [
        ModuleLines(
            name,
            tuple(
                _line(curriculum, observation, outcome)
                for outcome in observation.items
                if outcome.module == name
            ),
        )
        for name in names
    ]


def _line(curriculum: Curriculum, observation: Observation, outcome: StepOutcome) -> ItemLine:
    module = curriculum.modules.get(outcome.module)
    items = module.checklist if module else ()
    item = next((one for one in items if one.id == outcome.step), None)
    measures = {one.id: one for one in item.measures} if item else {}
    of_item = (outcome.module, outcome.step)
    measured = [m for m in observation.measured if (m.module, m.step) == of_item]
    return ItemLine(item, outcome, tuple((measures.get(m.name), m) for m in measured))


def score_of(curriculum: Curriculum, qualification_id: str, signed: Observation) -> Score | None:
    """The score of what was signed, for its reasons; None where it can't be worked out any more."""
    qualification = curriculum.qualifications.get(qualification_id)
    if qualification is None:
        return None
    items, seen = [], {}
    for outcome in signed.items:
        name = f"{outcome.module}/{outcome.step}"
        items.append(ChecklistItem.model_construct(id=name, critical=outcome.critical))
        seen[name] = Seen(outcome.outcome, outcome.reason, outcome.rule_met)
    try:
        return score_observation(items, seen, signed.judgement, qualification.practical_pass_share)
    except NotScorable:
        return None


def batch_lines(observation: Observation) -> dict[str, dict[str, str]]:
    """Each batch's time of mixing (minutes after midnight) and temperature, by batch."""
    found: dict[str, dict[str, str]] = {}
    for one in observation.measured:
        if not one.module and one.step.startswith("batch-"):
            found.setdefault(one.step.removeprefix("batch-"), {})[one.name] = one.value
    return found


@dataclass(frozen=True, slots=True)
class Around:
    """What later records say about a record: the one that made it void, and who vouched for it.

    own_word: the watched person's, if they gave it.
    """

    countered: CounterEntry | None
    countersigns: tuple[Countersign, ...]
    own_word: WorkerCountersign | None


def around(connection: Connection, event: Watched) -> Around:
    """Gather what later records say about a record."""
    settled = settle(history := history_of(connection, event.person))
    by_id = {one.id: one for one in history}
    countered = by_id.get(settled.voided.get(event.id, ""))
    return Around(
        countered if isinstance(countered, CounterEntry) else None,
        tuple(settled.countersigns.get(event.id, ())),
        next(iter(settled.worker_countersigns.get(event.id, ())), None),
    )


@dataclass(frozen=True, slots=True)
class Signed:
    """A record in a list."""

    id: str
    kind: str
    person: str
    qualification: str
    job: str
    occurred_on: date
    is_passed: bool
    is_void: bool


def signed_by(connection: Connection, trainer_id: str) -> list[Signed]:
    """The newest supervised repairs and verified jobs a trainer signed, the newest first."""
    own = newest_signed(connection, trainer_id, NEWEST)
    voided = settle(with_pointing(connection, own)).voided
    return [
        Signed(
            id=event.id,
            kind=event.kind,
            person=event.person,
            qualification=event.qualification,
            job=event.job,
            occurred_on=event.occurred_on,
            is_passed=event.passed,
            is_void=event.id in voided,
        )
        for event in own
    ]


def late_entries(connection: Connection, policy: Policy, trainer_id: str) -> list[Watched]:
    """Records of other trainers that came in late or flagged and that this one may vouch for."""
    rules = policy.qualifications
    least_days = min((rule.late_entry_days for rule in rules.values()), default=0)
    by_person: dict[str, list[Watched]] = {}
    for event in came_later(connection, least_days):
        if event.qualification in rules and needs_countersign(rules[event.qualification], event):
            by_person.setdefault(event.person, []).append(event)
    shared, found = shared_records(connection), []
    for person, events in by_person.items():
        settled = settle(events_bearing_on(connection, shared, person))
        found += [e for e in events if _may_vouch(settled, rules[e.qualification], e, trainer_id)]
    return sorted(found, key=lambda event: event.recorded_at)


def _may_vouch(settled: Settled, rule: QualificationPolicy, event: Watched, trainer: str) -> bool:
    """Whether a record is in force, waits for a second trainer, and this one has no part in it."""
    if event.id in settled.voided or is_countersigned(settled, rule, event):
        return False
    return settled.who(trainer) not in {settled.who(event.trainer), settled.who(event.person)}
