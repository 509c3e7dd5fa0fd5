"""Who is qualified, as of a day, as known on a day: events and policy in, standing out.

The rules are those of assessment section 5. Rules 1 to 3 stand in settling.py, 5 in counting.py,
6 in grants.py, 7 to 9 in clocks.py, 4 and 10 in case.py; the answer is put into reasons in
explaining.py. For many people settle() the records once and judge() each.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal, get_args

from app.records.events import Event
from app.records.policy import Policy, QualificationPolicy
from app.records.standing.case import gather
from app.records.standing.explaining import missing_in, not_counted_in, reasons_of, warnings_of
from app.records.standing.reasons import NotCounted, Reason
from app.records.standing.settling import Settled, settle

__all__ = ["STATUSES", "Policy", "QualificationPolicy", "Standing", "Status", "judge", "standing"]

Status = Literal[
    "revoked", "suspended", "expired", "lapsed", "update-needed", "not-qualified", "current"
]
STATUSES: tuple[Status, ...] = get_args(Status)  # rule 11: the first that has a reason is it


@dataclass(frozen=True, kw_only=True, slots=True)
class Standing:
    """The answer for one person and qualification on one day.

    reasons: all that hold, the deciding one first; warnings: what runs out soon; missing: what
    would make it current; not_counted: records that did not count; evidence, grant: ids of the
    records it rests on; last_good_day, continuity_due_on: civil days, both still good; kept_by: id
    of the repair or job that continuity_due_on is reckoned from.
    """

    person: str
    qualification: str
    as_of: date
    status: Status
    reasons: tuple[Reason, ...]
    warnings: tuple[Reason, ...]
    missing: tuple[Reason, ...]
    not_counted: tuple[NotCounted, ...]
    evidence: tuple[str, ...]
    grant: str | None
    granted_on: date | None
    last_good_day: date | None
    continuity_due_on: date | None
    kept_by: str | None

    @property
    def is_current(self) -> bool:
        """Whether the person may do this work on the day."""
        return self.status == "current"

    @property
    def is_due_soon(self) -> bool:
        """Whether it is current, and something runs out within the policy's days of warning."""
        return self.is_current and bool(self.warnings)


def standing(
    events: Iterable[Event],
    policy: Policy,
    person: str,
    qualification: str,
    as_of: date,
    known_on: date | datetime | None = None,
) -> Standing:
    """One person's standing in one qualification on a day, as known on a day.

    events: the person's records and the shared ones (authorisations, revisions, merges), in any
    order; known_on: a day (to its end in UTC), an aware time, or None for all that is there.
    Raises NoSuchQualification, ContentConflict. Source: assessment section 5.
    Example: ``standing(history, policy, "W", "lead-injector", date(2024, 3, 10)).status``.
    """
    rule = policy.rule(qualification)
    return judge(settle(events, known_on), rule, person, as_of)


def judge(settled: Settled, rule: QualificationPolicy, person: str, as_of: date) -> Standing:
    """The standing by records already settled; see standing()."""
    case = gather(settled, rule, person, as_of)
    reasons = reasons_of(case)
    grant = case.good.grant if case.good else None
    return Standing(
        person=person,
        qualification=rule.id,
        as_of=as_of,
        status=_status(reasons),
        reasons=reasons,
        warnings=warnings_of(case),
        missing=missing_in(case, reasons),
        not_counted=not_counted_in(case),
        evidence=case.good.support.evidence if case.good else (),
        grant=grant.id if grant else None,
        granted_on=grant.occurred_on if grant else None,
        last_good_day=case.valid_to,
        continuity_due_on=case.active_to,
        kept_by=case.kept_by or None,
    )


def _status(reasons: tuple[Reason, ...]) -> Status:
    """Rule 11. Every reason that is no status by itself is one for not being qualified."""
    codes = {reason.code for reason in reasons}
    if codes == {"granted"}:
        return "current"
    return next((status for status in STATUSES if status in codes), "not-qualified")
