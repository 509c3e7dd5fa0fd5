"""The story told through the same decisions as the pages use, each at its own time."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from app.curriculum.model import Curriculum
from app.demo.sites import JOBS, RESINS
from app.demo.story import Told
from app.demo.watching import observation
from app.ids import new_id
from app.records import decisions as d
from app.records.events import Event, ModuleRevision
from app.records.ledger import append, history_of
from app.records.manifesting import signed
from app.records.policy import Policy, policy_from


@dataclass(frozen=True, slots=True)
class Teller:
    """Turns told acts into records."""

    connection: Connection
    curriculum: Curriculum
    zone: str
    today: date
    people: dict[str, str]
    names: dict[str, str]
    jobs: dict[str, str]

    def tell(self, told: Told) -> None:
        """Decide and append what one act of the story says."""
        _TELLING[told.what](self, told)

    @property
    def policy(self) -> Policy:
        """The rules of the content's qualifications."""
        return policy_from(self.curriculum)

    def act(self, told: Told) -> d.Act:
        """When and by whom: in the afternoon of the day, or so many days late."""
        day = self.today - timedelta(days=told.days_ago)
        recorded = day + timedelta(days=told.late_days)
        local = datetime.combine(recorded, time(15, 30), tzinfo=ZoneInfo(self.zone))
        return d.Act(
            id=new_id(), by=self.people[told.by], now=local.astimezone(UTC),
            occurred_on=day, zone=self.zone,
        )  # fmt: skip

    def history(self, told: Told) -> list[Event]:
        """What is on record about the person of the act."""
        person = told.values.get("person")
        return history_of(self.connection, *([self.people[person]] if person else []))

    def common(self, told: Told) -> dict[str, Any]:
        """The person and what else the decision takes by name."""
        values = dict(told.values)
        if "person" in values:
            values["person"] = self.people[values["person"]]
        if "job" in values:
            values["job"] = self.jobs[values["job"]]
        return values


def _learn(teller: Teller, told: Told) -> None:
    for module in teller.curriculum.qualification(told.values["qualification"]).modules:
        _learn_one(teller, told, module)


def _learn_module(teller: Teller, told: Told) -> None:
    _learn_one(teller, told, told.values["module"])


def _learn_one(teller: Teller, told: Told, module: str) -> None:
    person = teller.people[told.values["person"]]
    history = teller.history(told)
    revision = _revision(history, module)
    training = d.decide_training(
        history, teller.act(told), person=person, module=module, revision=revision
    )
    append(teller.connection, training)
    act = teller.act(told)
    quiz = d.decide_quiz(
        history, act, person=person, module=module, revision=revision,
        right=8, asked=8, passed=True, attempt=act.id,
    )  # fmt: skip
    append(teller.connection, quiz)


def _revision(history: list[Event], module: str) -> int:
    told = [e.revision for e in history if e.kind == "content-revised" and e.module == module]  # type: ignore[attr-defined]
    return max(told, default=1)


def _watch(teller: Teller, told: Told) -> None:
    values, act = teller.common(told), teller.act(told)
    rule = teller.policy.rule(values["qualification"])
    job = JOBS[told.values["job"]]
    history = teller.history(told)
    seen = observation(
        teller.curriculum, rule.id, job, RESINS[job["resin"]], teller.names[told.by], act.now
    )
    event = d.decide_practical(
        history, rule, act, person=values["person"], job=values["job"], observation=seen,
        passed=True,
        revisions=tuple(
            ModuleRevision(module=m, revision=_revision(history, m)) for m in rule.modules
        ),
    )  # fmt: skip
    append(teller.connection, event)


def _use(teller: Teller, told: Told) -> None:
    values = teller.common(told)
    rule = teller.policy.rule(values["qualification"])
    event = d.decide_use(
        teller.history(told), rule, teller.act(told), person=values["person"], job=values["job"]
    )
    append(teller.connection, signed(event, teller.names[told.by]))


def _decided(decide: Callable[..., Event], by_rule: bool) -> Callable[[Teller, Told], None]:
    def tell(teller: Teller, told: Told) -> None:
        values = teller.common(told)
        history, act = teller.history(told), teller.act(told)
        if by_rule:
            rule = teller.policy.rule(values.pop("qualification"))
            event = decide(history, rule, act, **values)
        else:
            event = decide(history, act, **values)
        append(teller.connection, signed(event, teller.names[told.by]))

    return tell


def _grant(teller: Teller, told: Told) -> None:
    event = d.decide_grant(
        teller.history(told), teller.policy, teller.act(told), **teller.common(told)
    )
    append(teller.connection, signed(event, teller.names[told.by]))


_TELLING: dict[str, Callable[[Teller, Told], None]] = {
    "learn": _learn,
    "learn-module": _learn_module,
    "watch": _watch,
    "use": _use,
    "grant": _grant,
    "suspend": _decided(d.decide_suspend, by_rule=True),
    "revoke": _decided(d.decide_revoke, by_rule=True),
    "authorise": _decided(d.decide_authorise_trainer, by_rule=False),
    "revise": _decided(d.decide_revise_content, by_rule=False),
}
