"""What a worker's phone sends once it has signal: steps done, answers given."""

from contextlib import suppress
from datetime import UTC
from typing import Any

from flask_babel import gettext as _
from sqlalchemy import Connection

from app.curriculum.model import Module
from app.curriculum.questions.marking import NoSuchOption
from app.curriculum.questions.variants import NoVariant
from app.trade.errors import Refusal
from app.web.now import zone
from app.web.outbox.items import ItemRefused, malformed
from app.web.outbox.kinds import Arrival, Kind
from app.workbook.practice_answers import PracticeAnswer, keep_practice_answer
from app.worker.actions import Doer, answer_question, finish_step
from app.worker.asking import is_still_asked, question_at
from app.worker.blueprint import curriculum
from app.worker.question_sets import asked_in_round, mark
from app.worker.quiz_pages import own_attempt


def take_step_done(connection: Connection, arrival: Arrival) -> dict[str, Any]:
    """Note a step as done; ``payload``: module, revision (as it was on the page), step."""
    item = arrival.item
    module = _module(arrival)
    read, step_id = item.value("revision", int), item.value("step", str)
    known = {step.id for step in module.lesson("en").steps}
    if read < 1:
        raise malformed("payload.revision", read)
    if step_id not in known and read >= module.revision:
        raise ItemRefused(422, "unknown-step", _("The lesson has no such step."))
    left = finish_step(connection, module, step_id[:60], doer_of(arrival), read)
    return {"left": list(left)}


def take_practice_answer(connection: Connection, arrival: Arrival) -> dict[str, Any]:
    """Mark a practice answer again, here; ``payload``: module, day, round, item, version, typed.

    A question that has changed since is kept unmarked: practice counts for nothing, so nobody is
    troubled with it.
    """
    item = arrival.item
    module, item_id = _module(arrival), item.value("item", str)
    day, number = item.value("day", str), item.value("round", int)
    version, typed = item.value("version", int), item.value("typed", str)[:80]
    marked = None
    with suppress(KeyError, NoVariant, NoSuchOption, Refusal):
        asked = asked_in_round(module, item_id, arrival.person.id, day, number)
        marked = mark(asked, typed) if asked.question.version == version else None
    answer = PracticeAnswer(
        id=item.id,
        person_id=arrival.person.id,
        module_id=module.id,
        item_id=item_id[:60],
        item_version=version,
        set_day=day[:10],
        set_round=number,
        typed=typed,
        is_right=marked.is_right if marked else None,
        slip=(marked.slip_id or "") if marked else "",
        answered_at=arrival.time.likely_at.astimezone(UTC),
    )
    keep_practice_answer(connection, answer)
    return {"is_right": answer.is_right}


def take_quiz_answer(connection: Connection, arrival: Arrival) -> dict[str, Any]:
    """Mark an answer of a quiz that counts; ``payload``: attempt, position, typed.

    The first answer to a question stands, whichever way it came.
    """
    item = arrival.item
    position, typed = item.value("position", int), item.value("typed", str)[:80]
    opened = own_attempt(connection, item.value("attempt", str), arrival.person.id)
    if opened is None or not 1 <= position <= opened.total:
        raise ItemRefused(422, "unknown-question", _("There is no such question in your quiz."))
    if position in opened.answers:
        return {"was_answered": True}
    if not is_still_asked(curriculum(), opened.attempt):
        sentence = _("The questions were changed while this quiz was open. Start it again.")
        raise ItemRefused(422, "questions-changed", sentence)
    asked = question_at(curriculum(), opened.attempt, position)
    try:
        marked = mark(asked, typed)
    except NoSuchOption as refusal:
        raise malformed("payload.typed", typed) from refusal
    doer = doer_of(arrival)
    answer_question(connection, curriculum(), opened.attempt, asked, typed, marked, doer)
    return {"was_answered": False}


def doer_of(arrival: Arrival) -> Doer:
    """Who did it and when, as far as the phone's clock can be believed."""
    return Doer(
        arrival.person.id,
        arrival.arrived_at,
        zone(),
        arrival.person.language,
        arrival.person.units,
        done_at=arrival.time.likely_at.astimezone(UTC),
        carried_by=arrival.carried_by.id if arrival.carried_by else "",
    )


def _module(arrival: Arrival) -> Module:
    name = arrival.item.value("module", str)
    found = curriculum().modules.get(name)
    if found is None:
        raise ItemRefused(422, "unknown-module", _("This module is not taught any more."))
    return found


KINDS = (
    Kind("step-done", take_step_done, role="worker"),
    Kind("practice-answer", take_practice_answer, role="worker"),
    Kind("quiz-answer", take_quiz_answer, role="worker", may_come_by_file=False),
)
