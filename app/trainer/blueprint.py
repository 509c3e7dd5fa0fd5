"""The trainer's blueprint and what its views share."""

from typing import Any

from flask import abort, redirect, url_for
from werkzeug.wrappers import Response

from app.curriculum.model import Curriculum
from app.database import reading
from app.records.events import Watched
from app.records.ledger.door import event_by_id
from app.trainer import words
from app.trainer.doing import Doer
from app.trainer.repairs.batches import clock_text
from app.trainer.repairs.papers import Papers, papers_of
from app.web.audience import audience_blueprint
from app.web.judged_words import judgements, outcomes
from app.web.now import now, zone
from app.web.texts import served_curriculum
from app.web.value_words import language_name
from app.web.who import choice, signed_in
from app.workbook.jobs import Job, job_by_id

trainer = audience_blueprint("trainer", __name__, role="trainer")

Page = str | tuple[str, int]


@trainer.context_processor
def words_for_templates() -> dict[str, Any]:
    """Hand the trainer's templates the words their data is told in."""
    return {
        "day": words.day,
        "moment": words.moment,
        "shown": words.shown,
        "shown_in": words.shown_in,
        "sheet_value": words.sheet_value,
        "outcomes": outcomes(),
        "judgements": judgements(),
        "clock_text": lambda minutes: clock_text(float(minutes)),
        "language": choice("language"),
        "language_name": language_name,
    }


def curriculum() -> Curriculum:
    """Return the approved texts in force today."""
    return served_curriculum()


def doer() -> Doer:
    """Return the trainer acting in this request, when and where."""
    person = signed_in()
    return Doer(person.id, person.name, now(), zone(), choice("language"))


def job_or_404(job_id: str) -> Job:
    """Return the job, or answer that nothing is here."""
    with reading() as connection:
        found = job_by_id(connection, job_id)
    if found is None:
        abort(404)
    return found


def papers_or_404(repair: str) -> Papers:
    """Return the trainer's own open papers, or answer that nothing is here."""
    with reading() as connection:
        found = papers_of(connection, curriculum(), repair, signed_in().id)
    if found is None:
        abort(404)
    return found


def is_signed(repair: str) -> bool:
    """Say whether a record has this id."""
    with reading() as connection:
        return isinstance(event_by_id(connection, repair), Watched)


def to_repair(repair: str) -> Response:
    """Go to the repair's first page: its papers, or its record once it is signed."""
    return redirect(url_for("trainer.repair", repair=repair), 303)
