"""The officer's blueprint and what its views share."""

from collections.abc import Callable
from datetime import date
from typing import Any

from flask import abort, request
from flask_babel import gettext
from sqlalchemy import Connection

from app.accounts.people import Person, names, person_by_id
from app.curriculum.model import Curriculum
from app.database import reading
from app.officer.actions import Doer
from app.officer.telling import Telling
from app.officer.words import (
    clock_time,
    correction_words,
    day,
    kind_word,
    missing_lines,
    record_title,
    status_word,
)
from app.web.audience import audience_blueprint
from app.web.now import now, zone
from app.web.texts import served_curriculum
from app.web.value_words import language_name
from app.web.who import choice, signed_in
from app.workbook.jobs import job_titles

officer = audience_blueprint("officer", __name__, role="safety-officer")


@officer.context_processor
def words() -> dict[str, Any]:
    """Hand the words of days, kinds and standings to the officer's templates."""
    return {
        "correction_words": correction_words,
        "day": day,
        "clock_time": clock_time,
        "kind_word": kind_word,
        "language_name": language_name,
        "missing_lines": missing_lines,
        "record_title": record_title,
        "status_word": status_word,
    }


def curriculum() -> Curriculum:
    """Return the approved texts in force today."""
    return served_curriculum()


def doer() -> Doer:
    """Return who acts in this request, when and where."""
    return Doer(signed_in().id, now(), zone(), signed_in().name, choice("language"))


def telling(connection: Connection, show_day: Callable[[date], str] = day) -> Telling:
    """Return what tells reasons in words, with the names known now."""
    return Telling(
        translate=gettext,
        show_day=show_day,
        language=choice("language"),
        units=choice("units"),
        curriculum=curriculum(),
        names=names(connection),
        jobs=job_titles(connection),
    )


def wants_all() -> bool:
    """Return whether the address asks for a long list in full."""
    return request.args.get("all") == "yes"


def person_or_404(person_id: str) -> Person:
    """Return the person, or answer that nothing is here."""
    with reading() as connection:
        found = person_by_id(connection, person_id)
    if found is None:
        abort(404)
    return found


def qualification_or_404(qualification_id: str) -> str:
    """Return the title of the qualification, or answer that nothing is here."""
    found = curriculum().qualifications.get(qualification_id)
    if found is None:
        abort(404)
    return found.title.in_language(choice("language"))
