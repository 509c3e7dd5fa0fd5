"""Rules 7 to 9: how long a grant is good, whether work went on, whether training is up to date."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from app.records.days import add_months
from app.records.events import ContentRevised, Practical, Training, Watched
from app.records.policy import QualificationPolicy
from app.records.standing.counting import Counted
from app.records.standing.grants import Judged
from app.records.standing.reasons import NotCounted, because
from app.records.standing.settling import Settled, majors_by


@dataclass(frozen=True, slots=True)
class Clock:
    """The last good day of the clock, and the jobs it left uncounted. None: it never runs out.

    kept_by: id of the record the day is reckoned from; "" where it never runs out.
    """

    last_good_day: date | None
    not_counted: tuple[NotCounted, ...] = ()
    kept_by: str = ""


def validity(rule: QualificationPolicy, judged: Judged) -> date | None:
    """The last good day by months from the day of the grant itself; None: no limit.

    Source: assessment rule 7. Example: a grant of 2024-02-29 for 24 months is good through
    2026-02-28.
    """
    if rule.validity_months is None:
        return None
    return add_months(judged.grant.occurred_on, rule.validity_months)


def continuity(rule: QualificationPolicy, judged: Judged, counted: Counted) -> Clock:
    """The day by which the next counted repair or job must come.

    It starts at the latest repair behind the grant (at the grant where none is required). After
    a lapse a job no longer moves it on; a supervised repair does. Source: assessment rule 8.
    """
    if rule.continuity_months is None:
        return Clock(None)
    start, kept_by = judged.grant.occurred_on, judged.grant.id
    if rule.practicals_required:
        start, kept_by = max((p.occurred_on, p.id) for p in judged.support.practicals)
    due = add_months(start, rule.continuity_months)
    too_late: list[NotCounted] = []
    for event in _in_order_from(start, counted):
        if event.occurred_on <= due or isinstance(event, Practical):
            due, kept_by = add_months(event.occurred_on, rule.continuity_months), event.id
        else:
            why = because("after-lapse", on=due)
            too_late.append(NotCounted(event=event.id, whys=(why,)))
    return Clock(due, tuple(too_late), kept_by)


def _in_order_from(start: date, counted: Counted) -> Sequence[Watched]:
    both: list[Watched] = [*counted.practicals, *counted.uses]
    later = [event for event in both if event.occurred_on >= start]
    # On the same day the repair first: it brings back what the job then goes on with.
    return sorted(later, key=lambda e: (e.occurred_on, not isinstance(e, Practical), e.id))


@dataclass(frozen=True, slots=True)
class Update:
    """A module whose newest training is older than a major revision; due: last day of grace."""

    module: str
    revision: ContentRevised
    newest: int
    due: date


def updates(
    settled: Settled, rule: QualificationPolicy, person: str, as_of: date
) -> Iterator[Update]:
    """The modules a person has to train again. Source: assessment rule 9.

    The grace runs from the first major revision they missed; training at the newest is asked for.
    """
    own = [e for e in settled.about(person, as_of) if isinstance(e, Training)]
    for module in rule.modules:
        trained = max((e.revision for e in own if e.module == module), default=0)
        missed = [e for e in majors_by(settled, module, as_of) if e.revision > trained]
        if missed:
            newest = max(event.revision for event in missed)
            due = missed[0].occurred_on + timedelta(days=rule.grace_days)
            yield Update(module, missed[0], newest, due)
