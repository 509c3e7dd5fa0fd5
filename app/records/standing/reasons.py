"""Why a standing is what it is: a code with its values, and the plain sentence of each code."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import TypeAlias

Param: TypeAlias = str | int | date


@dataclass(frozen=True, kw_only=True, slots=True)
class Reason:
    """A code of SENTENCES, the values its sentence needs, and the ids of the records behind it.

    Example: ``Reason(code="expired", params={"on": date(2026, 2, 28)}, events=("g1",))``.
    """

    code: str
    params: Mapping[str, Param] = field(default_factory=dict)
    events: tuple[str, ...] = ()


def because(code: str, events: tuple[str, ...] = (), **params: Param) -> Reason:
    """A Reason written shortly. Example: ``because("too-old", months=12, on=day)``."""
    return Reason(code=code, params=params, events=events)


@dataclass(frozen=True, kw_only=True, slots=True)
class NotCounted:
    """A record that did not count, by its id, and every reason why."""

    event: str
    whys: tuple[Reason, ...]


SENTENCES = {
    # standing
    "granted": "Granted on {on} by {decider}.",
    "not-granted": "Nobody has granted this qualification.",
    "revoked": "Revoked from {on} by {decider}.",
    "suspended": "Suspended from {on} by {decider}.",
    "expired": "Expired: the last good day was {on}.",
    "lapsed": "Lapsed: no counted repair or verified job by {on}.",
    "update-needed": "{module} was changed on {on}; training at revision {revision} is missing.",
    # warnings
    "expires-soon": "Runs out after {on}.",
    "continuity-due": "A repair or verified job must come by {on}.",
    "update-due": "{module} was changed; train at revision {revision} by {by}.",
    # what a grant lacks, or lacked
    "training-missing": "Training in {module} is missing.",
    "training-outdated": "Training in {module} is at revision {trained}; {revision} is in force.",
    "quiz-missing": "A passed quiz in {module}, not older than {months} months, is missing.",
    "practicals-missing": "{counted} of {required} supervised repairs count.",
    "trainers-missing": "Trainers who signed those repairs: {counted} of {required}.",
    "decider-is-person": "{decider} decided about themselves.",
    # what brings a standing back
    "grant-needed": "A safety officer has to grant it.",
    "lift-needed": "A safety officer has to lift the suspension.",
    "practical-needed": "A new supervised repair is needed.",
    "training-needed": "Training in {module} at revision {revision} is needed.",
    # why a record does not count
    "voided": "Made void by a later record.",
    "self-sign-off": "Signed by the person it is about.",
    "trainer-not-authorised": "{trainer} was not authorised to sign for this on {on}.",
    "critical-step-not-done": "A critical step was not done alone: {steps}.",
    "critical-step-out-of-tolerance": "A critical step was out of tolerance: {steps}.",
    "no-critical-step-seen": "No critical step applied, so nothing was shown.",
    "not-passed": "Not passed.",
    "recorded-late": "Recorded {days} days after it happened; the limit is {limit}. "
    "Another authorised trainer has to countersign.",
    "device-revoked": "Sent from a phone that had been reported lost. "
    "Another authorised trainer has to countersign.",
    "worker-countersign-missing": "The person who was watched has not confirmed it yet.",
    "dated-ahead": "Dated after it was recorded.",
    "same-job": "Job {job} has already been counted.",
    "after-lapse": "Came after the lapse of {on}; only a supervised repair brings it back.",
    "too-old": "Older than {months} months on {on}.",
    "before-revocation": "From before the revocation of {on}.",
    "decider-was-trainer": "{decider} signed it and also decided on the grant.",
}


def plain(name: str, value: Param) -> str:
    """A value as plain text: dates as 2026-02-28. Pages hand in their own for names and dates."""
    return value.isoformat() if isinstance(value, date) else str(value)


def sentence(reason: Reason) -> str:
    """The reason as one plain English sentence with bare ids and dates.

    Raises KeyError for a code that is not in SENTENCES.
    Example: "Expired: the last good day was 2026-02-28."
    """
    values = {name: plain(name, value) for name, value in reason.params.items()}
    return SENTENCES[reason.code].format(**values)
