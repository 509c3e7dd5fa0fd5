"""What each person of a proposed crew has shown on a day: standings, and what everyone must.

PURE: records already settled, policy and needs in, answers out.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from app.curriculum.crew import ForEveryone
from app.records.policy import Policy, QualificationPolicy
from app.records.standing.counting import Counted
from app.records.standing.definition import Standing, judge
from app.records.standing.grants import Asked, support
from app.records.standing.reasons import Reason
from app.records.standing.settling import Settled


@dataclass(frozen=True, slots=True)
class CrewMember:
    """standings by qualification; gaps: by module, what is missing of what everyone must show."""

    person: str
    standings: Mapping[str, Standing]
    gaps: Mapping[str, tuple[Reason, ...]]

    @property
    def is_ready(self) -> bool:
        """Whether the person may be on the job at all."""
        return not any(self.gaps.values())

    @property
    def holds(self) -> tuple[str, ...]:
        """The qualifications that are current on the day."""
        return tuple(name for name, one in self.standings.items() if one.is_current)


def crew_members(
    settled: Settled,
    policy: Policy,
    everyone: Iterable[ForEveryone],
    people: Iterable[str],
    as_of: date,
) -> list[CrewMember]:
    """What each of the people has shown on a day.

    Example: ``crew_members(settle(history), policy, needs.everyone, ["W"], day)[0].holds``.
    """
    asked = tuple(everyone)
    members = []
    for person in people:
        standings = {
            name: judge(settled, rule, person, as_of)
            for name, rule in policy.qualifications.items()
        }
        gaps = {}
        for one in asked:
            shown_by = [
                standings[name]
                for name, rule in policy.qualifications.items()
                if one.module in rule.modules
            ]
            gaps[one.module] = module_gaps(settled, one, person, as_of, shown_by)
        members.append(CrewMember(person, standings, gaps))
    return members


def module_gaps(
    settled: Settled, one: ForEveryone, person: str, as_of: date, shown_by: Sequence[Standing]
) -> tuple[Reason, ...]:
    """What a person lacks to be on a job, in one module; empty: nothing.

    shown_by: their standings in the qualifications that take the module in. A current one shows
    it. Without one, whoever is suspended or revoked in one of them has not shown it, whatever they
    passed before; anybody else needs the training at the revision in force and a passed quiz.
    """
    if any(standing.is_current for standing in shown_by):
        return ()
    against = [r for s in shown_by for r in s.reasons if r.code in ("suspended", "revoked")]
    if against:
        return tuple(against)
    rule = QualificationPolicy(
        id=one.module,
        modules=(one.module,),
        practicals_required=0,
        trainers_required=0,
        evidence_months=one.quiz_months,
    )
    nothing = Counted(practicals=(), uses=(), not_counted=())
    return support(Asked(settled, rule, person, as_of, None), nothing).gaps
