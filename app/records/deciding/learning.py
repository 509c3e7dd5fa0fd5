"""Decisions of learning and watching: training, quiz, supervised repair, verified job."""

from collections.abc import Iterable
from datetime import date

from app.records.deciding.acts import Act, must_be_authorised, settled_before, stamped
from app.records.deciding.refusals import (
    AlreadyRecorded,
    AlreadyVoid,
    ImpossibleCount,
    NoCriticalStep,
    NoSuchRecord,
    NotLate,
    NotTheWorker,
    SelfSignOff,
    SignedBySomeoneElse,
    StepReasonMissing,
    WorkerNotAsked,
)
from app.records.events import (
    Countersign,
    Event,
    Flag,
    ModuleRevision,
    Practical,
    Quiz,
    Training,
    Use,
    Watched,
    WorkerCountersign,
)
from app.records.observation import Language, Observation, StepOutcome
from app.records.policy import QualificationPolicy
from app.records.standing.counting import (
    count,
    is_countersigned,
    is_worker_countersigned,
    needs_countersign,
)
from app.records.standing.settling import Settled


def decide_training(
    history: Iterable[Event],
    act: Act,
    *,
    person: str,
    module: str,
    revision: int,
    trainer: str = "",
    text_sha256: str = "",
    language: Language = "",
) -> Training:
    """A module gone through at a revision; trainer empty when the person worked alone.

    Raises SelfSignOff, DatedInFuture, AlreadyRecorded (same module, revision and day).
    """
    settled = settled_before(history, act)
    if trainer and settled.who(trainer) == settled.who(person):
        raise SelfSignOff
    for earlier in settled.about(person, act.occurred_on):
        if not isinstance(earlier, Training) or earlier.occurred_on != act.occurred_on:
            continue
        if (earlier.module, earlier.revision) == (module, revision):
            raise AlreadyRecorded(id=earlier.id)
    return Training(
        **stamped(act),
        person=person,
        module=module,
        revision=revision,
        trainer=trainer,
        text_sha256=text_sha256,
        language=language,
    )


def decide_quiz(
    history: Iterable[Event],
    act: Act,
    *,
    person: str,
    module: str,
    revision: int,
    right: int,
    asked: int,
    passed: bool,
    attempt: str,
    examiner: str = "",
    text_sha256: str = "",
    language: Language = "",
) -> Quiz:
    """A finished quiz attempt, passed or not. Raises ImpossibleCount, AlreadyRecorded."""
    if not 0 <= right <= asked or asked == 0:
        raise ImpossibleCount(right=right, asked=asked)
    settled = settled_before(history, act)
    for earlier in settled.about(person, act.occurred_on):
        if isinstance(earlier, Quiz) and attempt and earlier.attempt == attempt:
            raise AlreadyRecorded(id=earlier.id)
    return Quiz(
        **stamped(act),
        person=person,
        module=module,
        revision=revision,
        right=right,
        asked=asked,
        passed=passed,
        attempt=attempt,
        examiner=examiner,
        text_sha256=text_sha256,
        language=language,
    )


def decide_practical(
    history: Iterable[Event],
    rule: QualificationPolicy,
    act: Act,
    *,
    person: str,
    job: str,
    observation: Observation,
    passed: bool,
    revisions: tuple[ModuleRevision, ...] = (),
    trainer: str | None = None,
    flag: Flag = "",
) -> Practical:
    """A supervised repair as signed by the trainer who watched, passed or not.

    passed: the verdict of app/curriculum/scoring.py; trainer: who watched, if named apart from
    the signer; flag: why it counts only with a countersign. Raises SignedBySomeoneElse,
    SelfSignOff, TrainerNotAuthorised, DatedInFuture, StepReasonMissing, NoCriticalStep,
    AlreadyRecorded (passed, and one on that job counts already).
    """
    if trainer is not None and trainer != act.by:
        raise SignedBySomeoneElse
    settled = settled_before(history, act)
    _check_watching(settled, rule, act, person)
    if passed:  # a failed one after a good one is worth knowing
        _refuse_second_on_job(settled, rule, Practical, person, job)
    critical = _critical(observation)
    return Practical(
        **stamped(act),
        person=person,
        qualification=rule.id,
        trainer=act.by,
        job=job,
        passed=passed,
        critical=critical,
        revisions=revisions,
        observation=observation,
        flag=flag,
    )


def _critical(observation: Observation) -> tuple[StepOutcome, ...]:
    critical = tuple(item for item in observation.items if item.critical)
    for item in critical:
        if item.outcome == "does-not-apply" and not item.reason.strip():
            raise StepReasonMissing(step=item.step, module=item.module)
    if all(item.outcome == "does-not-apply" for item in critical):
        raise NoCriticalStep
    return critical


def decide_use(
    history: Iterable[Event], rule: QualificationPolicy, act: Act, *, person: str, job: str
) -> Use:
    """A job done under the qualification, verified by the trainer acting.

    Raises SelfSignOff, TrainerNotAuthorised, DatedInFuture, AlreadyRecorded (same job).
    """
    settled = settled_before(history, act)
    _check_watching(settled, rule, act, person)
    _refuse_second_on_job(settled, rule, Use, person, job)
    return Use(**stamped(act), person=person, qualification=rule.id, trainer=act.by, job=job)


def _check_watching(settled: Settled, rule: QualificationPolicy, act: Act, person: str) -> None:
    if settled.who(act.by) == settled.who(person):
        raise SelfSignOff
    stamped(act)  # a day in the future is the plainer reason than a missing authorisation
    must_be_authorised(settled, act.by, rule.id, act.occurred_on)


def _refuse_second_on_job(
    settled: Settled,
    rule: QualificationPolicy,
    kind: type[Watched],
    person: str,
    job: str,
) -> None:
    counted = count(settled, rule, person, date.max)
    for earlier in (*counted.practicals, *counted.uses):
        if isinstance(earlier, kind) and job and earlier.job == job:
            raise AlreadyRecorded(id=earlier.id)


def decide_countersign(
    history: Iterable[Event], rule: QualificationPolicy, act: Act, *, target: str
) -> Countersign:
    """Another trainer vouches for a record that came in late or flagged.

    Raises NoSuchRecord, AlreadyVoid, NotLate, SelfSignOff (own record, or record about oneself),
    TrainerNotAuthorised, DatedInFuture, AlreadyRecorded.
    """
    events = list(history)
    found = next((e for e in events if e.id == target), None)
    if not isinstance(found, Watched) or found.qualification != rule.id:
        raise NoSuchRecord(id=target)
    settled = settled_before(events, act)
    if target in settled.voided:
        raise AlreadyVoid
    if not needs_countersign(rule, found):
        raise NotLate
    if settled.who(act.by) in (settled.who(found.trainer), settled.who(found.person)):
        raise SelfSignOff
    must_be_authorised(settled, act.by, rule.id, act.occurred_on)
    if is_countersigned(settled, rule, found):
        raise AlreadyRecorded(id=settled.countersigns[target][0].id)
    return Countersign(
        **stamped(act),
        person=found.person,
        qualification=found.qualification,
        target=target,
        trainer=act.by,
    )


def decide_worker_countersign(
    history: Iterable[Event], rule: QualificationPolicy, act: Act, *, target: str
) -> WorkerCountersign:
    """The person who was watched says of a supervised repair: I did this.

    Raises NoSuchRecord, WorkerNotAsked, AlreadyVoid, NotTheWorker, DatedInFuture, AlreadyRecorded.
    """
    events = list(history)
    found = next((e for e in events if e.id == target), None)
    if not isinstance(found, Practical) or found.qualification != rule.id:
        raise NoSuchRecord(id=target)
    if rule.worker_countersign == "off":
        raise WorkerNotAsked
    settled = settled_before(events, act)
    if target in settled.voided:
        raise AlreadyVoid
    if settled.who(act.by) != settled.who(found.person):
        raise NotTheWorker
    if is_worker_countersigned(settled, found):
        raise AlreadyRecorded(id=settled.worker_countersigns[target][0].id)
    return WorkerCountersign(
        **stamped(act), person=found.person, qualification=found.qualification, target=target
    )
