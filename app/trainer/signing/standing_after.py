"""What a signed record comes to: where the watched person stands today, for who signed it."""

from collections.abc import Mapping
from dataclasses import dataclass

from flask_babel import gettext
from sqlalchemy import Connection

from app.curriculum.model import Curriculum
from app.records.events import Watched
from app.records.ledger.door import history_of
from app.records.policy import policy_from
from app.records.standing.definition import standing
from app.trainer.doing import Doer
from app.trainer.words import day
from app.web.reason_words import Line, ReasonWords


@dataclass(frozen=True, slots=True)
class StandingAfter:
    """A standing by all that is recorded now.

    status: as the pages name it; good_until, work_by: days, or empty where it is not current;
    lines: what is missing, or what runs out soon, as pairs (symbol, sentence).
    """

    status: str
    good_until: str
    work_by: str
    lines: tuple[Line, ...]


def standing_after(
    connection: Connection,
    curriculum: Curriculum,
    event: Watched,
    doer: Doer,
    names: Mapping[str, str],
) -> StandingAfter | None:
    """Where the person of a record stands today; None where the rules no longer know it."""
    if event.qualification not in curriculum.qualifications:
        return None
    history = history_of(connection, event.person)
    about = (event.person, event.qualification, doer.today)
    found = standing(history, policy_from(curriculum), *about)
    tell = ReasonWords(gettext, day, doer.language, curriculum, names)
    last, due = (found.last_good_day, found.continuity_due_on) if found.is_current else (None, None)
    return StandingAfter(
        status="due-soon" if found.is_due_soon else found.status,
        good_until=day(last) if last else "",
        work_by=day(due) if due else "",
        lines=tuple(tell.line(reason, "do") for reason in found.missing or found.warnings),
    )
