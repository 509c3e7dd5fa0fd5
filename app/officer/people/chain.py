"""The chain from an answer to the records: what it rests on, who signed, how long it lasts.

No Flask here; the sentences stand in templates/officer/_standing.html.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from app.records.events import Decided, Event, Quiz, Training, Watched
from app.records.policy import QualificationPolicy
from app.records.standing.definition import Standing
from app.records.standing.settling import Settled


@dataclass(frozen=True, slots=True)
class Proof:
    """A record an answer rests on. signer: who signed it, "" if nobody but the person themselves.

    authorised: the record by which a trainer could sign on that day; only for watched work.
    """

    event: Event
    signer: str
    authorised: Event | None


@dataclass(frozen=True, slots=True)
class Lasting:
    """How long a grant lasts: by months from its day, and by the work that keeps it up.

    valid_months, kept_months: None for no limit; kept_by: the work that counts last.
    """

    granted_on: date
    valid_months: int | None
    valid_to: date | None
    kept_months: int | None
    kept_to: date | None
    kept_by: Proof | None


def proofs(ids: Iterable[str], by_id: Mapping[str, Event], settled: Settled) -> tuple[Proof, ...]:
    """Each record with who signed it; ids that are not to be shown are left out."""
    return tuple(_proof(by_id[name], settled) for name in ids if name in by_id)


def _proof(event: Event, settled: Settled) -> Proof:
    if isinstance(event, Watched):
        let = settled.authorised_by(event.trainer, event.qualification, event.occurred_on)
        return Proof(event, event.trainer, let)
    return Proof(event, _signer(event), None)


def _signer(event: Event) -> str:
    if isinstance(event, Decided):
        return event.decider
    if isinstance(event, Quiz):
        return event.examiner
    return event.trainer if isinstance(event, Training) else ""


def lasting(
    standing: Standing, rule: QualificationPolicy, by_id: Mapping[str, Event], settled: Settled
) -> Lasting | None:
    """How long the grant behind a standing lasts; None where none stands."""
    if standing.granted_on is None:
        return None
    kept = by_id.get(standing.kept_by or "")
    return Lasting(
        granted_on=standing.granted_on,
        valid_months=rule.validity_months,
        valid_to=standing.last_good_day,
        kept_months=rule.continuity_months,
        kept_to=standing.continuity_due_on,
        kept_by=_proof(kept, settled) if kept else None,
    )
