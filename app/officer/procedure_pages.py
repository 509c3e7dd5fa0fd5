"""The modules' revisions: in the files, in force by the records, and what came before. No Flask."""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection

from app.curriculum.model import Curriculum, Module
from app.ids import new_id
from app.officer.actions import Doer, revision
from app.records.decisions import Act
from app.records.events import ContentRevised
from app.records.ledger import history_of, light_events
from app.records.policy import policy_from
from app.records.settling import settle
from app.records.standing import Standing, judge
from app.trade.errors import Refusal


@dataclass(frozen=True, slots=True)
class Revised:
    """A revision on record; voided_by: the counter-entry that made it void, or ""."""

    event: ContentRevised
    voided_by: str


@dataclass(frozen=True, slots=True)
class Procedure:
    """A module and its revisions, the newest first; newest: in force by the records, or None."""

    module: Module
    history: tuple[Revised, ...]
    newest: ContentRevised | None

    @property
    def is_file_newer(self) -> bool:
        """Whether the files hold a revision that is not in force yet."""
        return self.module.revision > (self.newest.revision if self.newest else 0)


@dataclass(frozen=True, slots=True)
class Affected:
    """Somebody who has to train again, in which qualification, and by when."""

    person: str
    qualification: str
    by: date


def procedures(connection: Connection, curriculum: Curriculum) -> list[Procedure]:
    """Every module, in learning order."""
    events = history_of(connection)
    settled = settle(events)
    revised = [e for e in events if isinstance(e, ContentRevised)]
    return [
        Procedure(
            module=module,
            history=tuple(
                Revised(e, settled.voided.get(e.id, ""))
                for e in sorted(revised, key=lambda e: e.revision, reverse=True)
                if e.module == module.id
            ),
            newest=max(
                settled.revisions.get(module.id, ()), key=lambda e: e.revision, default=None
            ),
        )
        for module in curriculum.modules.values()
    ]


def affected_by_major(
    connection: Connection, curriculum: Curriculum, module: Module, doer: Doer
) -> list[Affected]:
    """Who would have to train again if the files' revision came into force as major today."""
    history = list(light_events(connection))
    act = Act(
        id=new_id(), by=doer.person_id, now=doer.now, occurred_on=doer.today, zone=doer.zone.key
    )
    try:
        event = revision(module.id, module.revision, "major")(history, act)
    except Refusal:
        return []
    before, after = settle(history), settle([*history, event])
    found = []
    for rule in policy_from(curriculum).qualifications.values():
        if module.id not in rule.modules:
            continue
        for person in after.by_person:
            if judge(before, rule, person, doer.today).is_current:
                found += _asked_of(judge(after, rule, person, doer.today), module.id, doer.today)
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
