"""What happened, one frozen dataclass per kind. The kinds' names are kept for ever.

Every event: id; occurred_on, the civil day at the site, with zone, its IANA name; recorded_at, our
time of arrival in UTC; recorded_by; person and qualification where the kind has them. `version` is
the version of the kind's stored form (see encoding.py for reading older ones). An event without
one of its required values raises ValueError. Source of the kinds: assessment section 5.
"""

from dataclasses import MISSING, dataclass, fields
from datetime import date, datetime, timedelta
from functools import cache
from typing import ClassVar, Literal, TypeAlias

from app.records.days import zone_named
from app.records.observation import Language, Observation, Signature, StepOutcome

Change: TypeAlias = Literal["editorial", "major"]
Flag: TypeAlias = Literal["", "device-revoked"]


@dataclass(frozen=True, kw_only=True, slots=True)
class Event:
    """What all kinds share. Not a kind itself."""

    kind: ClassVar[str] = ""
    version: ClassVar[int] = 1

    id: str
    occurred_on: date
    zone: str
    recorded_at: datetime
    recorded_by: str = ""
    person: str = ""
    qualification: str = ""
    signature: Signature | None = None  # see manifesting.py; a practical's is in its observation

    def __post_init__(self) -> None:
        empty = [name for name in _required(self.kind) if getattr(self, name) == ""]
        if empty:
            raise ValueError(f"{self.kind} {self.id!r} needs {', '.join(empty)}")
        if self.recorded_at.utcoffset() != timedelta(0):
            raise ValueError(f"recorded_at must be in UTC, not {self.recorded_at.isoformat()}")
        zone_named(self.zone)


@dataclass(frozen=True, kw_only=True, slots=True)
class Training(Event):
    """A person went through a module at a revision, taught by trainer (empty: alone).

    text_sha256: the hash of the text that was read; language: the one it was read in.
    """

    kind: ClassVar[str] = "training"
    person: str
    module: str
    revision: int
    trainer: str = ""
    text_sha256: str = ""
    language: Language = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Quiz(Event):
    """A finished quiz attempt: right answers of those asked, and whether it was a pass.

    text_sha256: the hash of the text that the questions were taken from; language: the one they
    were asked in.
    """

    kind: ClassVar[str] = "quiz"
    person: str
    module: str
    passed: bool
    revision: int = 1
    right: int = 0
    asked: int = 0
    attempt: str = ""
    examiner: str = ""
    text_sha256: str = ""
    language: Language = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Watched(Event):
    """What a supervised repair and a verified job share: work on a job, vouched for by a trainer.

    critical holds the critical steps' outcomes only; the standing is judged on these. flag: why
    the record does not count until another trainer countersigns it, whatever its day; "": it needs
    nobody. Example of a flag: it came from a phone that had been reported lost.
    """

    person: str
    qualification: str
    trainer: str
    job: str = ""
    passed: bool = True
    critical: tuple[StepOutcome, ...] = ()
    flag: Flag = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class ModuleRevision:
    """The revision of one module that a record was made against, and the hash of its text."""

    module: str
    revision: int
    text_sha256: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Practical(Watched):
    """A supervised repair. observation is what was signed; the column reads leave it out."""

    kind: ClassVar[str] = "practical"
    job: str
    revisions: tuple[ModuleRevision, ...] = ()
    observation: Observation | None = None


@dataclass(frozen=True, kw_only=True, slots=True)
class Use(Watched):
    """A job done under the qualification and verified by a trainer; job empty: not named."""

    kind: ClassVar[str] = "use"


@dataclass(frozen=True, kw_only=True, slots=True)
class Decided(Event):
    """What the four decisions of a safety officer share."""

    person: str
    qualification: str
    decider: str
    reason: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Grant(Decided):
    """A qualification given. evidence: what the decider relied on; policy_version: the rule."""

    kind: ClassVar[str] = "grant"
    evidence: tuple[str, ...] = ()
    policy_version: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Suspend(Decided):
    """A qualification put on hold from its date."""

    kind: ClassVar[str] = "suspend"


@dataclass(frozen=True, kw_only=True, slots=True)
class Lift(Decided):
    """All open suspensions ended; the day itself is good."""

    kind: ClassVar[str] = "lift"


@dataclass(frozen=True, kw_only=True, slots=True)
class Revoke(Decided):
    """A qualification taken away from its date."""

    kind: ClassVar[str] = "revoke"


@dataclass(frozen=True, kw_only=True, slots=True)
class TrainerAuthorised(Event):
    """person may sign for the qualification from this day."""

    kind: ClassVar[str] = "trainer-authorised"
    person: str
    qualification: str


@dataclass(frozen=True, kw_only=True, slots=True)
class TrainerWithdrawn(Event):
    """person may not sign for the qualification from this day; earlier sign-offs stand."""

    kind: ClassVar[str] = "trainer-withdrawn"
    person: str
    qualification: str
    reason: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class ContentRevised(Event):
    """A revision of a text approved and in force from this day, which may be still to come.

    module: the module, or POLICY; sha256: the hash of the text (see app/curriculum/bundles.py);
    label: what the text calls itself (the policy's version); author: the person who wrote it, or
    empty and author_name, a firm or project; recorded_by approves.
    """

    kind: ClassVar[str] = "content-revised"
    module: str
    revision: int
    change: Change
    sha256: str = ""
    label: str = ""
    author: str = ""
    author_name: str = ""
    reason: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Countersign(Event):
    """Another trainer vouches for a watched record (target) that came in late or flagged."""

    kind: ClassVar[str] = "countersign"
    target: str
    trainer: str


@dataclass(frozen=True, kw_only=True, slots=True)
class WorkerCountersign(Event):
    """The watched person's own word for a supervised repair (target): I did this repair."""

    kind: ClassVar[str] = "worker-countersign"
    person: str
    target: str


@dataclass(frozen=True, kw_only=True, slots=True)
class CounterEntry(Event):
    """The record called target is void. Nothing is deleted; this one may be countered too.

    proposal, proposed_by: the proposal this confirms and who made it, where two had to agree.
    """

    kind: ClassVar[str] = "counter-entry"
    target: str
    reason: str = ""
    proposal: str = ""
    proposed_by: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class IdentityMerged(Event):
    """merged was person entered a second time; proposal, proposed_by: as in a counter-entry."""

    kind: ClassVar[str] = "identity-merged"
    person: str
    merged: str
    reason: str = ""
    proposal: str = ""
    proposed_by: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class CorrectionProposed(Event):
    """A correction that would raise a standing; it counts for nothing until another confirms it.

    correction: the kind it is to become; about: the record to be void, or the id merged away.
    Withdrawn by making it void.
    """

    kind: ClassVar[str] = "correction-proposed"
    about: str
    correction: Literal["counter-entry", "identity-merged"] = "counter-entry"
    reason: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class NameErased(Event):
    """person's name was erased on a lawful request; the id stays, and so does what was done."""

    kind: ClassVar[str] = "name-erased"
    person: str
    reason: str = ""


KINDS: dict[str, type[Event]] = {
    event.kind: event
    for event in (
        Training, Quiz, Practical, Use, Grant, Suspend, Lift, Revoke, TrainerAuthorised,
        TrainerWithdrawn, ContentRevised, Countersign, CounterEntry, IdentityMerged,
        CorrectionProposed, NameErased, WorkerCountersign,
    )
}  # fmt: skip


@cache
def _required(kind: str) -> tuple[str, ...]:
    return tuple(field.name for field in fields(KINDS[kind]) if field.default is MISSING)


def in_order(event: Event) -> tuple[date, datetime, str]:
    """Sort key: by day, then arrival, then id, so that the order of sending never matters."""
    return (event.occurred_on, event.recorded_at, event.id)
