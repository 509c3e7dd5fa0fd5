"""How far a person is, in words of the page's language."""

from datetime import UTC, date, datetime
from typing import Any

from flask import url_for
from flask_babel import format_date
from flask_babel import gettext as _

from app.curriculum.model import Curriculum
from app.web.kept_words import kept_in_each_language
from app.web.now import zone
from app.worker.modules import ModuleState, Next


@kept_in_each_language
def day(on: date) -> str:
    """Return a day as people write it: 2 Mar 2026."""
    return format_date(on, "d MMM y")


def civil(moment: datetime) -> date:
    """Return the day at the firm of a kept time, which is UTC without saying so."""
    return moment.replace(tzinfo=UTC).astimezone(zone()).date()


def state_words(state: ModuleState) -> tuple[str, str]:
    """Return the state of a module as a word, and what there is to say beside it."""
    steps = _("steps %(done)s of %(total)s", done=state.steps_done, total=state.steps_total)
    if state.state == "passed" and state.passed_on:
        note = _("too old for a new qualification: take the quiz again")
        return _("Passed on %(day)s", day=day(state.passed_on)), note if state.is_quiz_stale else ""
    if state.state == "update" and state.changed_on:
        changed = _("changed on %(day)s", day=day(state.changed_on))
        return _("Update needed"), f"{changed}, {steps}"
    if state.state == "quiz":
        return _("Quiz to take"), _("all steps done")
    if state.state == "begun":
        return _("Begun"), steps
    return _("To do"), _("%(total)s steps", total=state.steps_total)


def module_ports(states: list[ModuleState], here: str, language: str) -> list[dict[str, Any]]:
    """Return the modules as the ports on the margin's crack; ``here`` is the next one's id."""
    return [_module_port(state, here, language) for state in states]


def _module_port(state: ModuleState, here: str, language: str) -> dict[str, Any]:
    word, note = state_words(state)
    name = state.module.id
    is_done = state.state == "passed"
    return {
        "title": state.module.lesson(language).title,
        "url": url_for("worker.module", module=name),
        "note": note,
        "word": word,
        "state": "here" if name == here else "done" if is_done else "later",
    }


def why_next(found: Next, curriculum: Curriculum, language: str) -> str:
    """Say why this module comes next."""
    title = ""
    if found.qualification:
        title = curriculum.qualification(found.qualification).title.in_language(language)
    match found.why:
        case "update":
            return _("The steps were changed. You need to go through them again.")
        case "begun":
            return _("You have begun it. Go on where you stopped.")
        case "quiz":
            return _("You have done every step. The quiz is left.")
        case "stale-quiz":
            return _("Your passed quiz is too old for a new qualification. Take it again.")
    return _("It is the next one you need to become: %(title)s.", title=title)
