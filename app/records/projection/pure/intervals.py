"""A standing over many days in one piece: what holds from one day to another, and its clocks.

PURE. The definition is judge() of standing/definition.py; timeline.py makes these from the records,
and a test compares the two on every day. Between two days on which something happened, nothing
about a standing changes but what the clocks say: so an interval runs from one such day to the
next, and carries the last good days as facts. What a day inside it is called (expired, lapsed,
update needed, current) is worked out from them when somebody asks. Therefore nothing has to be
rewritten when a day passes or when a module is revised.
"""

from datetime import date, timedelta
from typing import Literal, NamedTuple, TypeAlias

from app.records.policy import QualificationPolicy
from app.records.standing.definition import Status
from app.records.standing.settling import Settled, majors_by

Held: TypeAlias = Literal["not-qualified", "granted", "suspended", "revoked"]


class Facts(NamedTuple):
    """What holds over an interval, before the clocks are looked at.

    granted_on: day of the grant that stands; last_good_day, continuity_due_on: both still good,
    None where there is no limit; decided_on: day of the suspension or revocation in force;
    trained: newest revision trained in each module of the rule, 0 for none; empty without a grant.
    """

    held: Held
    granted_on: date | None
    last_good_day: date | None
    continuity_due_on: date | None
    decided_on: date | None
    trained: tuple[int, ...]


BLANK = Facts("not-qualified", None, None, None, None, ())


class Interval(NamedTuple):
    """Facts from one day to another, both included; to_on None: for ever."""

    from_on: date
    to_on: date | None
    facts: Facts


class UpdateDue(NamedTuple):
    """Training that a major revision asks for; on: the last day of grace; revision: the newest."""

    on: date
    module: str
    revision: int


def update_due(
    settled: Settled, rule: QualificationPolicy, trained: tuple[int, ...], as_of: date
) -> UpdateDue | None:
    """The training that must come first, of all that major revisions up to a day ask for.

    settled: needs no more than the revisions; trained: from Facts. Returns None where training
    is up to date or there is no grant. Source: assessment rule 9.
    Example: ``update_due(settled, rule, facts.trained, day)``.
    """
    due: UpdateDue | None = None
    for module, revision in zip(rule.modules, trained, strict=False):
        missed = [e for e in majors_by(settled, module, as_of) if e.revision > revision]
        if missed:
            on = missed[0].occurred_on + timedelta(days=rule.grace_days)
            newest = max(event.revision for event in missed)
            due = UpdateDue(on, module, newest) if due is None or on < due.on else due
    return due


def status_on(facts: Facts, as_of: date, update: UpdateDue | None) -> Status:
    """The status of a day inside an interval, by the precedence of rule 11.

    update: from update_due() for the same day. Source: assessment section 5, rules 7 to 11.
    Example: ``status_on(facts, date(2026, 3, 1), None) == "expired"``.
    """
    if facts.held != "granted":
        return facts.held
    if facts.last_good_day is not None and facts.last_good_day < as_of:
        return "expired"
    if facts.continuity_due_on is not None and facts.continuity_due_on < as_of:
        return "lapsed"
    return "update-needed" if update is not None and update.on < as_of else "current"
