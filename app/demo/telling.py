"""The story told through the same decisions as the pages use, each at its own time."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from app.accounts.printed_names import seal_name
from app.curriculum.bundles import POLICY, hash_of
from app.curriculum.model import Curriculum
from app.demo.earlier_texts import (
    EARLIER_POLICY,
    REVISED_MODULE,
    earlier_module,
    earlier_policy,
)
from app.demo.sites import JOBS, RESINS
from app.demo.story import Told
from app.demo.watching import observation
from app.ids import new_id
from app.records.deciding import decisions as d
from app.records.deciding.manifesting import signed
from app.records.deciding.revising import Author, Text
from app.records.events import (
    Change,
    ContentRevised,
    Event,
    ModuleRevision,
    Practical,
    Suspend,
)
from app.records.ledger.door import append, history_of
from app.records.policy import Policy, policy_from
from app.records.texts.kept import keep_text


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
        """The rules of the content's qualifications, under the version approved back then."""
        earlier = self.curriculum.model_copy(update={"policy_version": EARLIER_POLICY})
        return policy_from(earlier)

    def act(self, told: Told) -> d.Act:
        """When and by whom: in the afternoon of the day, or so many days late."""
        day = self.today - timedelta(days=told.days_ago)
        recorded = day + timedelta(days=told.late_days)
        local = datetime.combine(recorded, time(15, 30), tzinfo=ZoneInfo(self.zone))
        return d.Act(
            id=new_id(), by=self.people[told.by], now=local.astimezone(UTC),
            occurred_on=day, zone=self.zone,
        )  # fmt: skip

    def seal(self, name: str) -> str:
        """What stands under a signature of somebody; by sign-in name."""
        return seal_name(self.connection, self.people[name], self.names[name])

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
    revision, text_sha256 = _revision(history, module)
    training = d.decide_training(
        history, teller.act(told), person=person, module=module, revision=revision,
        text_sha256=text_sha256, language="en",
    )  # fmt: skip
    append(teller.connection, training)
    act = teller.act(told)
    quiz = d.decide_quiz(
        history, act, person=person, module=module, revision=revision,
        right=8, asked=8, passed=True, attempt=act.id,
        text_sha256=text_sha256, language="en",
    )  # fmt: skip
    append(teller.connection, quiz)


def _revision(history: list[Event], module: str) -> tuple[int, str]:
    """The revision in force when it happened, and its text's hash; acts are told in order."""
    told = [e for e in history if isinstance(e, ContentRevised) and e.module == module]
    return told[-1].revision, told[-1].sha256


def _made_against(history: list[Event], module: str) -> ModuleRevision:
    revision, text_sha256 = _revision(history, module)
    return ModuleRevision(module=module, revision=revision, text_sha256=text_sha256)


def _watch(teller: Teller, told: Told) -> None:
    values, act = teller.common(told), teller.act(told)
    rule = teller.policy.rule(values["qualification"])
    job = JOBS[told.values["job"]]
    history = teller.history(told)
    seen = observation(
        teller.curriculum, rule.id, job, RESINS[job["resin"]], teller.seal(told.by), act.now
    )
    event = d.decide_practical(
        history, rule, act, person=values["person"], job=values["job"], observation=seen,
        passed=True,
        revisions=tuple(_made_against(history, m) for m in rule.modules),
    )  # fmt: skip
    append(teller.connection, event)


def _confirm(teller: Teller, told: Told) -> None:
    """The watched person's own word for their newest supervised repair."""
    values, history = teller.common(told), teller.history(told)
    repairs = [e for e in history if isinstance(e, Practical) and e.person == values["person"]]
    rule = teller.policy.rule(values["qualification"])
    event = d.decide_worker_countersign(history, rule, teller.act(told), target=repairs[-1].id)
    append(teller.connection, signed(event, teller.seal(told.by), "en"))


def _use(teller: Teller, told: Told) -> None:
    values = teller.common(told)
    rule = teller.policy.rule(values["qualification"])
    event = d.decide_use(
        teller.history(told), rule, teller.act(told), person=values["person"], job=values["job"]
    )
    append(teller.connection, signed(event, teller.seal(told.by), "en"))


def _decided(decide: Callable[..., Event], by_rule: bool) -> Callable[[Teller, Told], None]:
    def tell(teller: Teller, told: Told) -> None:
        values = teller.common(told)
        history, act = teller.history(told), teller.act(told)
        if by_rule:
            rule = teller.policy.rule(values.pop("qualification"))
            event = decide(history, rule, act, **values)
        else:
            event = decide(history, act, **values)
        append(teller.connection, signed(event, teller.seal(told.by), "en"))

    return tell


def _grant(teller: Teller, told: Told) -> None:
    event = d.decide_grant(
        teller.history(told), teller.policy, teller.act(told), **teller.common(told)
    )
    append(teller.connection, signed(event, teller.seal(told.by), "en"))


def _propose(teller: Teller, told: Told) -> None:
    """Making the person's newest suspension void, put to the other officer."""
    history = teller.history(told)
    suspensions = [event for event in history if isinstance(event, Suspend)]
    event = d.decide_propose(
        history,
        teller.act(told),
        correction="counter-entry",
        about=suspensions[-1].id,
        reason=told.values["reason"],
    )
    append(teller.connection, signed(event, teller.seal(told.by), "en"))


def _approve_all(teller: Teller, told: Told) -> None:
    """Every text at its first revision, the policy at the version before the files'."""
    content = teller.curriculum
    for module in content.modules.values():
        is_earlier = module.id == REVISED_MODULE
        files = earlier_module(content) if is_earlier else module.files
        number = module.revision - is_earlier
        text = Text(name=module.id, revision=number, sha256=hash_of(files))
        _approve_text(teller, told, text, files, "editorial")
    files = dict(earlier_policy(content))
    text = Text(name=POLICY, revision=1, sha256=hash_of(files), label=EARLIER_POLICY)
    _approve_text(teller, told, text, files, "editorial")


def _approve(teller: Teller, told: Told) -> None:
    """A module's text as it is in the files."""
    module = teller.curriculum.module(told.values["module"])
    text = Text(name=module.id, revision=module.revision, sha256=module.content_hash)
    _approve_text(teller, told, text, module.files, told.values["change"])


def _approve_text(
    teller: Teller, told: Told, text: Text, files: Mapping[str, bytes], change: Change
) -> None:
    event = d.decide_approve_text(
        teller.history(told),
        teller.act(told),
        text=text,
        change=change,
        author=Author(name="Lowport project"),
        reason=told.values["reason"],
    )
    append(teller.connection, signed(event, teller.seal(told.by), "en"))
    keep_text(teller.connection, files)


_TELLING: dict[str, Callable[[Teller, Told], None]] = {
    "learn": _learn,
    "learn-module": _learn_module,
    "watch": _watch,
    "use": _use,
    "confirm": _confirm,
    "grant": _grant,
    "suspend": _decided(d.decide_suspend, by_rule=True),
    "lift": _decided(d.decide_lift, by_rule=True),
    "revoke": _decided(d.decide_revoke, by_rule=True),
    "authorise": _decided(d.decide_authorise_trainer, by_rule=False),
    "propose": _propose,
    "approve": _approve,
    "approve-all": _approve_all,
}
