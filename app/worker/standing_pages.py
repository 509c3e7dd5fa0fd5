"""A person's own standing, ready to print: one entry per qualification with every reason."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from sqlalchemy import Connection

from app.curriculum.model import Curriculum
from app.records.events import Event
from app.records.policy import policy_from
from app.records.standing.definition import Standing, judge
from app.records.standing.reasons import NotCounted, Reason
from app.records.standing.settling import Settled
from app.web.reason_words import Line, ReasonWords
from app.workbook.jobs import job_by_id

# Said once for all modules, in the words of the pages where it can be mended.
_OF_MODULES = {
    "training-missing": "Modules to go through: {modules}.",
    "quiz-missing": "Quizzes to pass, a pass counts for {months} months: {modules}.",
}
_BOTH = "Modules to go through, each with its quiz: {modules}. A pass counts for {months} months."
KIND_WORDS = {
    "training": "Training",
    "quiz": "Quiz",
    "practical": "Supervised repair",
    "use": "Verified job",
    "grant": "Grant",
}


@dataclass(frozen=True, slots=True)
class SetAside:
    """A record that did not count: what and when it was, and why."""

    title: str
    day: str
    why: str


@dataclass(frozen=True, slots=True)
class QualificationEntry:
    """One qualification as its section on the page shows it."""

    id: str
    title: str
    summary: str
    status: str
    reasons: tuple[Line, ...]
    missing: tuple[Line, ...]
    set_aside: tuple[SetAside, ...]
    last_good_day: str
    continuity_due_on: str
    first_needed: tuple[str, ...]
    may_sign: bool = False


def standings_of(
    curriculum: Curriculum, settled: Settled, person_id: str, on: date
) -> list[Standing]:
    """Judge every qualification for one person, in the order of the content."""
    policy = policy_from(curriculum)
    return [judge(settled, policy.rule(name), person_id, on) for name in curriculum.qualifications]


def job_titles(connection: Connection, events: Iterable[Event]) -> dict[str, str]:
    """Return the titles of the jobs that records name, by id."""
    ids = {str(getattr(event, "job", "")) for event in events}
    found = {name: job_by_id(connection, name) for name in ids if name}
    return {name: job.title for name, job in found.items() if job is not None}


def entries(
    standings: Iterable[Standing],
    events: Iterable[Event],
    telling: ReasonWords,
    signs_for: frozenset[str] = frozenset(),
) -> list[QualificationEntry]:
    """Return what the standing page shows, in order.

    signs_for: the qualifications that the person may sign for as a trainer.
    """
    by_id = {event.id: event for event in events}
    listed = list(standings)
    held = frozenset(standing.qualification for standing in listed if standing.is_current)
    shown = [_entry(standing, by_id, held, telling) for standing in listed]
    return [replace(entry, may_sign=entry.id in signs_for) for entry in shown]


def _entry(
    standing: Standing, by_id: Mapping[str, Event], held: frozenset[str], telling: ReasonWords
) -> QualificationEntry:
    qualification = telling.curriculum.qualification(standing.qualification)
    # What is missing says the same again for somebody who was never granted anything.
    is_said_below = {reason.code for reason in standing.missing}
    said = [*standing.reasons, *standing.warnings]
    first = [name for name in qualification.prerequisites if name not in held]
    needed = () if standing.is_current else tuple(map(telling.qualification, first))
    return QualificationEntry(
        id=qualification.id,
        title=qualification.title.in_language(telling.language),
        summary=qualification.summary.in_language(telling.language),
        status=page_status(standing),
        reasons=tuple(telling.line(r) for r in said if r.code not in is_said_below),
        missing=_missing(standing, telling),
        set_aside=tuple(_set_aside(entry, by_id, telling) for entry in standing.not_counted),
        last_good_day=_shown(standing.last_good_day, telling),
        continuity_due_on=_shown(standing.continuity_due_on, telling),
        first_needed=needed,
    )


def _missing(standing: Standing, telling: ReasonWords) -> tuple[Line, ...]:
    """What is missing, each kind of module work in one sentence for all its modules."""
    lines: dict[str, Line] = {}
    work = [r for r in standing.missing if r.code in _OF_MODULES]
    to_read, to_pass = (
        [r.params["module"] for r in work if r.code == code] for code in _OF_MODULES
    )
    is_both = to_read == to_pass
    for reason in standing.missing:
        same = [other for other in standing.missing if other.code == reason.code]
        if reason.code == "training-missing" and is_both:
            continue
        if reason.code in _OF_MODULES and (is_both or len(same) > 1):
            template = _BOTH if is_both else _OF_MODULES[reason.code]
            lines[reason.code] = ("do", _of_modules(template, same, telling))
        else:
            mark, sentence = telling.line(reason, "do")
            lines[sentence] = (mark, sentence)
    return tuple(lines.values())


def _of_modules(template: str, reasons: Sequence[Reason], telling: ReasonWords) -> str:
    """Reasons of one code that differ in their module only, as one sentence."""
    modules = ", ".join(telling.value("module", reason.params["module"]) for reason in reasons)
    return telling.filled(template, reasons[0], modules=modules)


def page_status(standing: Standing) -> str:
    """The status as pages name it: a current standing with a warning is due soon."""
    if standing.status == "current" and standing.warnings:
        return "due-soon"
    return standing.status


def _set_aside(entry: NotCounted, by_id: Mapping[str, Event], telling: ReasonWords) -> SetAside:
    event = by_id.get(entry.event)
    return SetAside(
        title=telling.translate(KIND_WORDS.get(event.kind, "Record")) if event else entry.event,
        day=telling.show_day(event.occurred_on) if event else "",
        why=" ".join(telling.sentence(why) for why in entry.whys),
    )


def _shown(day: date | None, telling: ReasonWords) -> str:
    return telling.show_day(day) if day is not None else ""
