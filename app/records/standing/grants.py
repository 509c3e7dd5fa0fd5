"""Rule 6: what a grant rests on, what it lacks, and which grant stands."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TypeVar

from app.records.days import add_months
from app.records.events import Event, Grant, Practical, Quiz, Revoke, Training
from app.records.policy import QualificationPolicy
from app.records.standing.counting import Counted
from app.records.standing.reasons import NotCounted, Reason, because
from app.records.standing.settling import Settled, revision_needed

E = TypeVar("E", bound=Event)


@dataclass(frozen=True, slots=True)
class Support:
    """What stands behind a grant on a day. It stands when nothing is in gaps.

    practicals: those that may be relied on; evidence: ids of all records relied on;
    gaps: what is missing; set_aside: records that could not be relied on, each with why.
    """

    practicals: tuple[Practical, ...]
    evidence: tuple[str, ...]
    gaps: tuple[Reason, ...]
    set_aside: tuple[NotCounted, ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """The question "could `decider` grant this on that day?"; decider None: somebody else."""

    settled: Settled
    rule: QualificationPolicy
    person: str
    on: date
    decider: str | None

    def own(self, kind: type[E]) -> list[E]:
        """The person's records of a kind up to the day."""
        events = self.settled.about(self.person, self.on)
        return [event for event in events if isinstance(event, kind)]

    def is_decider(self, other: str) -> bool:
        """Whether the decider is that person; nobody is if no decider was named."""
        who = self.settled.who
        return bool(other) and self.decider is not None and who(self.decider) == who(other)


def support(asked: Asked, counted: Counted) -> Support:
    """Look for everything a grant needs.

    Returns a Support. What the decider taught, examined or signed is set aside, so that a grant
    rests on others' evidence only. Source: assessment rule 6.
    Example: ``support(Asked(settled, rule, "W", on, "M1"), counted).gaps``.
    """
    gaps: list[Reason] = []
    evidence: list[str] = []
    if asked.is_decider(asked.person):
        gaps.append(because("decider-is-person", decider=str(asked.decider)))
    trainings, training_aside = _sorted_out(asked, asked.own(Training))
    quizzes, quiz_aside = _sorted_out(asked, asked.own(Quiz))
    done = [practical for practical in counted.practicals if practical.occurred_on <= asked.on]
    practicals, practical_aside = _sorted_out(asked, done)
    for module in asked.rule.modules:
        _look(_training_in(asked, trainings, module), evidence, gaps)
        _look(_quiz_in(asked, quizzes, module), evidence, gaps)
    gaps += _practical_gaps(asked, practicals)
    evidence += [practical.id for practical in practicals]
    aside = (*training_aside, *quiz_aside, *practical_aside)
    return Support(tuple(practicals), tuple(evidence), tuple(gaps), aside)


def _look(found: Event | Reason, evidence: list[str], gaps: list[Reason]) -> None:
    if isinstance(found, Reason):
        gaps.append(found)
    else:
        evidence.append(found.id)


def _training_in(asked: Asked, trainings: Sequence[Training], module: str) -> Training | Reason:
    needed = revision_needed(asked.settled, module, asked.on)
    own = [training for training in trainings if training.module == module]
    best = max(own, key=lambda training: training.revision, default=None)
    if best is None:
        return because("training-missing", module=module)
    if needed is not None and best.revision < needed.revision:
        return because(
            "training-outdated",
            (best.id, needed.id),
            module=module,
            trained=best.revision,
            revision=needed.revision,
        )
    return best


def _quiz_in(asked: Asked, quizzes: Sequence[Quiz], module: str) -> Quiz | Reason:
    own = [quiz for quiz in quizzes if quiz.module == module]
    if own:
        return own[-1]
    return because("quiz-missing", module=module, months=asked.rule.evidence_months)


def _practical_gaps(asked: Asked, practicals: Sequence[Practical]) -> Iterator[Reason]:
    rule = asked.rule
    events = tuple(practical.id for practical in practicals)
    if len(practicals) < rule.practicals_required:
        have, need = len(practicals), rule.practicals_required
        yield because("practicals-missing", events, counted=have, required=need)
    trainers = {asked.settled.who(practical.trainer) for practical in practicals}
    if len(trainers) < rule.trainers_required:
        have, need = len(trainers), rule.trainers_required
        yield because("trainers-missing", events, counted=have, required=need)


def _sorted_out(asked: Asked, events: Iterable[E]) -> tuple[list[E], list[NotCounted]]:
    good: list[E] = []
    aside: list[NotCounted] = []
    revoked_on = last_revocation(asked)
    for event in events:
        whys = tuple(_faults(asked, event, revoked_on))
        if whys:
            aside.append(NotCounted(event=event.id, whys=whys))
        else:
            good.append(event)
    return good, aside


def _faults(asked: Asked, event: Event, revoked_on: date | None) -> Iterator[Reason]:
    if isinstance(event, Quiz) and not event.passed:
        yield because("not-passed")
    if asked.is_decider(_signer(event)):
        yield because("decider-was-trainer", decider=str(asked.decider))
    if isinstance(event, Training):
        # What was learnt is not lost with a revocation or with time; the revision in force
        # decides. Only the proofs (quiz, supervised repair) must be fresh.
        return
    months = asked.rule.evidence_months
    if add_months(event.occurred_on, months) < asked.on:
        yield because("too-old", months=months, on=asked.on)
    if revoked_on is not None and event.occurred_on <= revoked_on:
        yield because("before-revocation", on=revoked_on)


def _signer(event: Event) -> str:
    if isinstance(event, Quiz):
        return event.examiner
    return event.trainer if isinstance(event, Training | Practical) else ""


def last_revocation(asked: Asked) -> date | None:
    """The day of the newest revocation up to the day asked about; None if there is none."""
    days = [e.occurred_on for e in asked.own(Revoke) if e.qualification == asked.rule.id]
    return max(days, default=None)


@dataclass(frozen=True, slots=True)
class Judged:
    """A grant with what stands behind it."""

    grant: Grant
    support: Support

    @property
    def stands(self) -> bool:
        return not self.support.gaps


def judge_grants(
    settled: Settled, rule: QualificationPolicy, person: str, as_of: date, counted: Counted
) -> list[Judged]:
    """Every grant of the qualification up to a day with its support, in order of day."""
    grants = [
        event
        for event in settled.about(person, as_of)
        if isinstance(event, Grant) and event.qualification == rule.id
    ]
    return [
        Judged(g, support(Asked(settled, rule, person, g.occurred_on, g.decider), counted))
        for g in grants
    ]
