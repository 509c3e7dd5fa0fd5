"""What an act would change, by the same decision and the same standing. No Flask here."""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection

from app.ids import new_id
from app.officer.actions import Decide, Doer
from app.records.deciding.decisions import Act
from app.records.events import Event
from app.records.ledger.door import history_of
from app.records.policy import Policy
from app.records.standing.definition import Standing, judge
from app.records.standing.settling import settle
from app.trade.errors import Refusal


@dataclass(frozen=True, slots=True)
class Change:
    """One standing today without the act and with it."""

    before: Standing
    after: Standing

    @property
    def is_none(self) -> bool:
        """Whether the standing and its last good days stay the same."""
        return _gist(self.before) == _gist(self.after)


def _gist(standing: Standing) -> tuple[object, ...]:
    return standing.status, standing.last_good_day, standing.continuity_due_on


@dataclass(frozen=True, slots=True)
class Preview:
    """The event an act would record, or why it would be refused; the standings it bears on.

    records: the history's events by id, for naming the evidence.
    """

    event: Event | None
    refusal: Refusal | None
    changes: tuple[Change, ...]
    records: dict[str, Event]

    def change_of(self, qualification: str) -> Change:
        """The change in one qualification."""
        return next(c for c in self.changes if c.before.qualification == qualification)

    @property
    def felt(self) -> tuple[Change, ...]:
        """Only the standings that would be another."""
        return tuple(change for change in self.changes if not change.is_none)


def preview(
    connection: Connection, policy: Policy, doer: Doer, decide: Decide, person: str, on: date
) -> Preview:
    """Decide without keeping anything; the standings are those of the person, today."""
    history = history_of(connection, *([person] if person else []))
    act = Act(id=new_id(), by=doer.person_id, now=doer.now, occurred_on=on, zone=doer.zone.key)
    event, refusal = None, None
    try:
        event = decide(history, act)
    except Refusal as refused:
        refusal = refused
    before = settle(history)
    after = settle([*history, event]) if event else before
    rules = policy.qualifications.values() if person else ()
    return Preview(
        event=event,
        refusal=refusal,
        changes=tuple(
            Change(judge(before, r, person, doer.today), judge(after, r, person, doer.today))
            for r in rules
        ),
        records={one.id: one for one in history},
    )
