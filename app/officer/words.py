"""Days, kinds of record and standings as the page's language says them."""

from collections.abc import Iterable
from datetime import date, datetime

from flask_babel import format_date, format_datetime
from flask_babel import gettext as _

from app.officer.telling import Telling
from app.records.deciding.manifesting import MEANINGS
from app.records.events import (
    ContentRevised,
    CorrectionProposed,
    Event,
    IdentityMerged,
    Quiz,
    Training,
    Watched,
)
from app.records.standing.reasons import Reason
from app.web.kept_words import kept_in_each_language
from app.web.now import zone
from app.web.reason_words import Line


@kept_in_each_language
def day(on: date) -> str:
    """Return a day as people write it: 2 Mar 2026."""
    return format_date(on, "d MMM y")


def clock_time(moment: datetime) -> str:
    """Return a moment on the firm's clock, with its zone: 2 Mar 2026, 09:00 EST."""
    local = moment.astimezone(zone())
    return format_datetime(local, "d MMM y, HH:mm", rebase=False) + f" {local.tzname()}"


@kept_in_each_language
def kind_word(kind: str) -> str:
    """Return what a kind of record is called."""
    return {
        "training": _("Training"),
        "quiz": _("Quiz"),
        "practical": _("Supervised repair"),
        "use": _("Verified job"),
        "grant": _("Granted"),
        "suspend": _("Suspended"),
        "lift": _("Suspension lifted"),
        "revoke": _("Revoked"),
        "trainer-authorised": _("Trainer authorised"),
        "trainer-withdrawn": _("Trainer's authorisation withdrawn"),
        "content-revised": _("Text approved"),
        "countersign": _("Countersigned"),
        "worker-countersign": _("Confirmed by the worker"),
        "counter-entry": _("Made void"),
        "identity-merged": _("Entered twice, made one"),
        "correction-proposed": _("Correction proposed"),
        "name-erased": _("Name erased"),
    }.get(kind, kind)


def record_title(event: Event, telling: Telling, with_job: bool = True) -> str:
    """Return one line that says what a record is."""
    word = kind_word(event.kind)
    if isinstance(event, Training):
        where = f"{telling.module(event.module)}, {_('revision %(number)s', number=event.revision)}"
        return f"{word}: {where}"
    if isinstance(event, Quiz):
        return f"{word}: {telling.module(event.module)}, {_quiz_result(event)}"
    if isinstance(event, Watched):
        result = "" if event.passed else f", {_('not passed')}"
        job = f" · {telling.job(event.job)}" if event.job and with_job else ""
        return f"{word}: {telling.qualification(event.qualification)}{job}{result}"
    if isinstance(event, ContentRevised):
        return f"{word}: {telling.module(event.module)}, {revision_words(event)}"
    if isinstance(event, IdentityMerged):
        return f"{word}: {telling.name(event.merged)} → {telling.name(event.person)}"
    about = f": {telling.qualification(event.qualification)}" if event.qualification else ""
    return f"{word}{about}"


def _quiz_result(event: Quiz) -> str:
    passed = _("passed") if event.passed else _("not passed")
    if not event.asked:
        return passed
    score = _("%(right)s of %(asked)s right", right=event.right, asked=event.asked)
    return f"{score}, {passed}"


def revision_words(event: ContentRevised) -> str:
    """Return which revision, and how far it goes."""
    if event.change == "major":
        return _("revision %(number)s, major", number=event.revision)
    return _("revision %(number)s, editorial", number=event.revision)


def correction_words(event: CorrectionProposed, telling: Telling) -> str:
    """Return what a proposed correction would do."""
    if event.correction == "identity-merged":
        return f"{telling.name(event.about)} → {telling.name(event.person)}"
    return _("make a record void")


@kept_in_each_language
def status_word(status: str) -> str:
    """Return a standing as a word."""
    return {
        "current": _("Current"),
        "due-soon": _("Due soon"),
        "update-needed": _("Update needed"),
        "lapsed": _("Lapsed"),
        "expired": _("Expired"),
        "suspended": _("Suspended"),
        "revoked": _("Revoked"),
        "not-qualified": _("Not qualified"),
    }[status]


@kept_in_each_language
def role_word(role: str) -> str:
    """Return a role as a word."""
    return {
        "worker": _("Worker"),
        "trainer": _("Trainer"),
        "safety-officer": _("Safety officer"),
    }[role]


def meaning_of(kind: str) -> str:
    """Return what the signature under a record means; empty where nothing is signed."""
    return _(MEANINGS[kind]) if kind in MEANINGS else ""


@kept_in_each_language
def outcome_word(outcome: str) -> str:
    """Return how a step of the checklist went."""
    return {
        "done": _("Done"),
        "done-when-prompted": _("Done when prompted"),
        "not-done": _("Not done"),
        "not-seen": _("Not seen"),
        "does-not-apply": _("Does not apply"),
    }.get(outcome, outcome)


@kept_in_each_language
def judgement_word(judgement: str) -> str:
    """Return a trainer's overall judgement."""
    return {
        "trainer-did-it": _("The trainer had to do it"),
        "needs-guiding": _("Needs guiding, step by step"),
        "needs-reminding": _("Needs reminding now and then"),
        "works-safely-alone": _("Works safely alone"),
        "could-show-others": _("Could show others"),
    }.get(judgement, judgement)


def missing_lines(reasons: Iterable[Reason], telling: Telling) -> list[Line]:
    """Return what is missing, the modules that lack the same thing named in one sentence."""
    lines: dict[str, Line] = {}
    modules: dict[str, list[str]] = {}
    for reason in reasons:
        if reason.code not in ("training-missing", "quiz-missing"):
            line = telling.line(reason, "do")
            lines[line[1]] = line
            continue
        named = modules.setdefault(reason.code, [])
        named.append(telling.value("module", reason.params["module"]))
        lines[reason.code] = ("do", _missing_in(reason, ", ".join(named)))
    return list(lines.values())


def _missing_in(reason: Reason, modules: str) -> str:
    if reason.code == "training-missing":
        return _("Training is missing in %(modules)s.", modules=modules)
    months = reason.params["months"]
    return _(
        "A passed quiz, not older than %(months)s months, is missing in %(modules)s.",
        months=months,
        modules=modules,
    )
