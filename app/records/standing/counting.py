"""Rule 5: which supervised repairs and verified jobs count, and why the others do not."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from app.records.days import civil_day
from app.records.events import Event, Practical, Use, Watched
from app.records.observation import StepOutcome
from app.records.policy import QualificationPolicy
from app.records.standing.reasons import NotCounted, Reason, because
from app.records.standing.settling import Settled


@dataclass(frozen=True, slots=True)
class Counted:
    """The repairs and jobs that count, in order of day, and those that do not."""

    practicals: tuple[Practical, ...]
    uses: tuple[Use, ...]
    not_counted: tuple[NotCounted, ...]


def count(settled: Settled, rule: QualificationPolicy, person: str, as_of: date) -> Counted:
    """Sort a person's repairs and jobs for one qualification up to a day.

    Returns a Counted. The first of two on the same job counts. Source: assessment rule 5.
    Example: ``count(settle(history), rule, "W", date(2024, 3, 10)).practicals``.
    """
    counted: list[Watched] = []
    not_counted: list[NotCounted] = []
    first_on_job: dict[tuple[str, str], str] = {}
    for event in watched(settled.about(person, as_of), rule.id):
        whys = tuple(faults(settled, rule, event))
        first = first_on_job.get((event.kind, event.job))
        if not whys and first is not None:
            whys = (because("same-job", (first,), job=event.job),)
        if whys:
            not_counted.append(NotCounted(event=event.id, whys=whys))
            continue
        counted.append(event)
        if event.job:
            first_on_job[event.kind, event.job] = event.id
    return Counted(
        practicals=tuple(e for e in counted if isinstance(e, Practical)),
        uses=tuple(e for e in counted if isinstance(e, Use)),
        not_counted=tuple(not_counted),
    )


def watched(events: Sequence[Event], qualification: str) -> Iterator[Watched]:
    """The repairs and jobs for a qualification among some records."""
    for event in events:
        if isinstance(event, Watched) and event.qualification == qualification:
            yield event


def faults(settled: Settled, rule: QualificationPolicy, event: Watched) -> Iterator[Reason]:
    """Every reason of its own why a repair or job does not count; none if it does."""
    if settled.who(event.trainer) == settled.who(event.person):
        yield because("self-sign-off")
    if not settled.may_sign(event.trainer, rule.id, event.occurred_on):
        yield because("trainer-not-authorised", trainer=event.trainer, on=event.occurred_on)
    yield from _critical_faults(event.critical)
    if not event.passed:
        yield because("not-passed")
    yield from _arrival_faults(settled, rule, event)
    if waits_for_worker(settled, rule, event):
        yield because("worker-countersign-missing")


def waits_for_worker(settled: Settled, rule: QualificationPolicy, event: Watched) -> bool:
    """Whether it counts only once the watched person has said that they did it.

    Asked of supervised repairs alone. Example: under a rule with worker_countersign "required".
    """
    if rule.worker_countersign != "required" or not isinstance(event, Practical):
        return False
    return not is_worker_countersigned(settled, event)


def is_worker_countersigned(settled: Settled, event: Watched) -> bool:
    """Whether the watched person has said that they did it, on whatever day that was."""
    worker = settled.who(event.person)
    said = settled.worker_countersigns.get(event.id, ())
    return any(settled.who(one.person) == worker for one in said)


def _critical_faults(steps: Sequence[StepOutcome]) -> Iterator[Reason]:
    applicable = [step for step in steps if step.outcome != "does-not-apply"]
    if steps and not applicable:
        yield because("no-critical-step-seen")
    missed = [step.step for step in applicable if step.outcome != "done"]
    if missed:
        yield because("critical-step-not-done", steps=", ".join(missed))
    out = [step.step for step in applicable if step.rule_met is False]
    if out:
        yield because("critical-step-out-of-tolerance", steps=", ".join(out))


def _arrival_faults(
    settled: Settled, rule: QualificationPolicy, event: Watched
) -> Iterator[Reason]:
    days = days_late(event)
    if days < -rule.ahead_days:
        yield because("dated-ahead")
    if not needs_countersign(rule, event) or is_countersigned(settled, rule, event):
        return
    if days > rule.late_entry_days:
        yield because("recorded-late", days=days, limit=rule.late_entry_days)
    if event.flag:
        yield because(event.flag)


def needs_countersign(rule: QualificationPolicy, event: Watched) -> bool:
    """Whether it counts only with a second trainer's word: it came in late, or flagged.

    Example: a record from a phone that was reported lost, on whatever day.
    """
    return bool(event.flag) or days_late(event) > rule.late_entry_days


def days_late(event: Event) -> int:
    """Days from the day it happened to the day it was recorded, both as the site counts days."""
    return (civil_day(event.recorded_at, event.zone) - event.occurred_on).days


def is_countersigned(settled: Settled, rule: QualificationPolicy, event: Watched) -> bool:
    """Whether another authorised trainer vouched for it, on whatever day that was."""
    involved = {settled.who(event.trainer), settled.who(event.person)}
    return any(
        settled.who(sign.trainer) not in involved
        and settled.may_sign(sign.trainer, rule.id, sign.occurred_on)
        for sign in settled.countersigns.get(event.id, ())
    )
