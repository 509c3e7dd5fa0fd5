"""Everything needed to answer for one person, one qualification and one day, gathered once."""

from dataclasses import dataclass
from datetime import date
from typing import TypeVar

from app.records.events import Event, Lift, Revoke, Suspend
from app.records.policy import QualificationPolicy
from app.records.standing.clocks import Update, continuity, updates, validity
from app.records.standing.counting import Counted, count
from app.records.standing.grants import Judged, judge_grants
from app.records.standing.reasons import NotCounted
from app.records.standing.settling import Settled, last_word

E = TypeVar("E", bound=Event)


@dataclass(frozen=True, slots=True)
class Case:
    """The facts of a case.

    grants: all, in order; good: the newest that stands; valid_to, active_to: last good days of
    the validity and continuity clocks, None where there is none; kept_by: id of the record that
    active_to is reckoned from, or ""; too_late: jobs after a lapse;
    revoked, suspended: the record in force on the day.
    """

    settled: Settled
    rule: QualificationPolicy
    person: str
    as_of: date
    counted: Counted
    grants: list[Judged]
    good: Judged | None
    valid_to: date | None
    active_to: date | None
    kept_by: str
    too_late: tuple[NotCounted, ...]
    outdated: tuple[Update, ...]
    revoked: Revoke | None
    suspended: Suspend | None


def gather(settled: Settled, rule: QualificationPolicy, person: str, as_of: date) -> Case:
    """The facts of a case by rules 4 to 10. Example: ``gather(settled, rule, "W", day).good``."""
    counted = count(settled, rule, person, as_of)
    grants = judge_grants(settled, rule, person, as_of, counted)
    good = next((judged for judged in reversed(grants) if judged.stands), None)
    active = continuity(rule, good, counted) if good else None
    own = [e for e in settled.about(person, as_of) if e.qualification == rule.id]
    return Case(
        settled=settled,
        rule=rule,
        person=person,
        as_of=as_of,
        counted=counted,
        grants=grants,
        good=good,
        valid_to=validity(rule, good) if good else None,
        active_to=active.last_good_day if active else None,
        kept_by=active.kept_by if active else "",
        too_late=active.not_counted if active else (),
        outdated=tuple(updates(settled, rule, person, as_of)) if good else (),
        revoked=_revoked(own, good),
        suspended=_suspended(own),
    )


def _revoked(own: list[Event], good: Judged | None) -> Revoke | None:
    """Rule 10: the newest revocation, unless a grant on a later day stands."""
    newest = last_word([event for event in own if isinstance(event, Revoke)], Revoke)
    if not isinstance(newest, Revoke):
        return None
    is_restored = good is not None and good.grant.occurred_on > newest.occurred_on
    return None if is_restored else newest


def _suspended(own: list[Event]) -> Suspend | None:
    """Rule 10: a suspension holds from its day until a lift; the day of the lift is good."""
    both = [event for event in own if isinstance(event, Suspend | Lift)]
    newest = last_word(both, Lift)
    return newest if isinstance(newest, Suspend) else None
