"""One person's standing with every reason, and all that is on record about them. No Flask here."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection

from app.accounts.people import Person
from app.curriculum.model import Curriculum, Qualification
from app.officer.board.pages import merged_away, page_status
from app.officer.people.chain import Lasting, Proof, lasting, proofs
from app.officer.telling import Telling
from app.records.events import Event, Practical
from app.records.ledger.door import history_of
from app.records.policy import QualificationPolicy, policy_from
from app.records.standing.counting import count
from app.records.standing.definition import Standing, judge
from app.records.standing.grants import Asked, support
from app.records.standing.reasons import Reason
from app.records.standing.settling import Settled, settle
from app.web.two_clocks import Clocks


@dataclass(frozen=True, slots=True)
class Told:
    """A reason in words: its symbol, its sentence, and the records behind it."""

    mark: str
    sentence: str
    events: tuple[Event, ...]


@dataclass(frozen=True, slots=True)
class SetAside:
    """A record that did not count (None: not to be shown), its id, and why."""

    id: str
    event: Event | None
    why: str


@dataclass(frozen=True, slots=True)
class Entry:
    """One qualification as its section of the page shows it.

    evidence: the records the grant rests on; without a grant, those that would count for one.
    lasting: how long the grant lasts, None without one.
    verbs: the decisions that make sense now.
    """

    qualification: Qualification
    standing: Standing
    status: str
    reasons: tuple[Told, ...]
    missing: tuple[Reason, ...]
    evidence: tuple[Proof, ...]
    lasting: Lasting | None
    set_aside: tuple[SetAside, ...]
    verbs: tuple[str, ...]
    may_sign: bool

    @property
    def is_decided(self) -> bool:
        """Whether anybody ever decided about it; the rest of the page is told shortly."""
        return self.standing.reasons[0].code != "not-granted"

    @property
    def is_close(self) -> bool:
        """Whether a supervised repair is there already, counted or not."""
        seen = (*(p.event for p in self.evidence), *(one.event for one in self.set_aside))
        return any(isinstance(event, Practical) for event in seen)


@dataclass(frozen=True, slots=True)
class TimelineRow:
    """One record in the list of all: voided_by is the counter-entry that made it void, or ""."""

    event: Event
    voided_by: str
    is_later: bool


@dataclass(frozen=True, slots=True)
class PersonPage:
    """A person's page. kept: the id this entry was merged into, or ""."""

    entries: list[Entry]
    timeline: list[TimelineRow]
    kept: str


def person_page(
    connection: Connection, curriculum: Curriculum, person: Person, clocks: Clocks, telling: Telling
) -> PersonPage:
    """Gather the page as of a day, as known on a day."""
    events = history_of(connection, person.id, known_on=clocks.known_at)
    settled = settle(events, clocks.known_at)
    by_id = {event.id: event for event in events}
    policy = policy_from(curriculum)
    entries = [
        _entry(q, policy.rule(q.id), settled, person.id, clocks, by_id, telling)
        for q in curriculum.qualifications.values()
    ]
    return PersonPage(
        entries=sorted(entries, key=lambda entry: not entry.is_decided),
        timeline=_timeline(settled, person.id, clocks),
        kept=merged_away(events, settled).get(person.id, ""),
    )


def _entry(
    qualification: Qualification,
    rule: QualificationPolicy,
    settled: Settled,
    person: str,
    clocks: Clocks,
    by_id: Mapping[str, Event],
    telling: Telling,
) -> Entry:
    standing = judge(settled, rule, person, clocks.as_of)
    return Entry(
        qualification=qualification,
        standing=standing,
        status=page_status(standing),
        reasons=tuple(
            Told(*telling.line(reason), tuple(by_id[e] for e in reason.events if e in by_id))
            for reason in (*standing.reasons, *standing.warnings)
        ),
        missing=_beyond_reasons(standing),
        evidence=proofs(_evidence(standing, rule, settled), by_id, settled),
        lasting=lasting(standing, rule, by_id, settled),
        set_aside=tuple(
            SetAside(n.event, by_id.get(n.event), " ".join(telling.sentence(why) for why in n.whys))
            for n in standing.not_counted
        ),
        verbs=verbs_for(standing),
        may_sign=settled.may_sign(person, rule.id, clocks.as_of),
    )


def _beyond_reasons(standing: Standing) -> tuple[Reason, ...]:
    """What is missing, without what a reason has already said in the same words."""
    said = {(r.code, tuple(r.params.items())) for r in standing.reasons}
    return tuple(r for r in standing.missing if (r.code, tuple(r.params.items())) not in said)


def _evidence(standing: Standing, rule: QualificationPolicy, settled: Settled) -> tuple[str, ...]:
    if standing.grant:
        return (standing.grant, *standing.evidence)
    counted = count(settled, rule, standing.person, standing.as_of)
    asked = Asked(settled, rule, standing.person, standing.as_of, None)
    return support(asked, counted).evidence


def verbs_for(standing: Standing) -> tuple[str, ...]:
    """The decisions that make sense for a standing; the others would be refused anyway."""
    codes = {reason.code for reason in standing.reasons}
    verbs = []
    if not standing.is_current and "suspended" not in codes:
        verbs.append("grant")
    if "suspended" in codes:
        verbs.append("lift")
    elif standing.grant and "revoked" not in codes:
        verbs.append("suspend")
    if standing.grant and "revoked" not in codes:
        verbs.append("revoke")
    return tuple(verbs)


def _timeline(settled: Settled, person: str, clocks: Clocks) -> list[TimelineRow]:
    """Every known record about the person, the newest first; void ones marked, none left out."""
    own = settled.by_person.get(settled.who(person), [])
    return [
        TimelineRow(event, settled.voided.get(event.id, ""), event.occurred_on > clocks.as_of)
        for event in reversed(own)
    ]


@dataclass(frozen=True, slots=True)
class Authorisation:
    """Whether a person may sign for a qualification today, and the records that say so."""

    qualification: str
    texts: Qualification
    may_sign: bool
    history: tuple[Event, ...]

    def title(self, language: str) -> str:
        """The qualification's title."""
        return self.texts.title.in_language(language)


def authorisations(
    connection: Connection, curriculum: Curriculum, person: str, on: date
) -> list[Authorisation]:
    """What a person may sign for as a trainer, in the order of the content."""
    settled = settle(history_of(connection, person))
    who = settled.who(person)
    return [
        Authorisation(
            q.id,
            q,
            settled.may_sign(person, q.id, on),
            tuple(settled.authorisations.get((who, q.id), ())),
        )
        for q in curriculum.qualifications.values()
    ]
