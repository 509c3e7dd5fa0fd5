"""Who would have to train again if a waiting revision came into force as major. No Flask here."""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection

from app.ids import new_id
from app.officer.actions import Doer
from app.officer.texts.pages import TextState
from app.records.events import ContentRevised
from app.records.ledger.door import light_events
from app.records.policy import Policy
from app.records.standing.definition import Standing, judge
from app.records.standing.settling import settle


@dataclass(frozen=True, slots=True)
class Affected:
    """Somebody who has to train again, in which qualification, and by when."""

    person: str
    qualification: str
    by: date


def affected_by_major(
    connection: Connection, policy: Policy, state: TextState, doer: Doer
) -> list[Affected]:
    """The people current today whom it would touch, the soonest first; nobody for the policy."""
    rules = [rule for rule in policy.qualifications.values() if state.name in rule.modules]
    if not rules:
        return []
    history = list(light_events(connection))
    event = ContentRevised(
        id=new_id(),
        occurred_on=doer.today,
        zone=doer.zone.key,
        recorded_at=doer.now,
        module=state.name,
        revision=state.file_revision,
        change="major",
    )
    before, after = settle(history), settle([*history, event])
    found = []
    for rule in rules:
        for person in after.by_person:
            if judge(before, rule, person, doer.today).is_current:
                found += _asked_of(judge(after, rule, person, doer.today), state.name, doer.today)
    return sorted(found, key=lambda one: (one.by, one.person))


def _asked_of(standing: Standing, module: str, on: date) -> list[Affected]:
    """What the revision asks of somebody current: by the end of the grace, or at once."""
    if not standing.is_current:
        return [Affected(standing.person, standing.qualification, on)]
    return [
        Affected(standing.person, standing.qualification, by)
        for warning in standing.warnings
        if warning.params.get("module") == module and isinstance(by := warning.params["by"], date)
    ]
