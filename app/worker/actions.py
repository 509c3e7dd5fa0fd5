"""What a worker may do: finish a step, take a quiz. Read, decide, append; no Flask here.

Every function runs inside the caller's writing transaction, so that all of an act is kept or none.
"""

from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from app.curriculum.model import Curriculum, Module
from app.curriculum.questions.marking import Marked, decide_quiz
from app.ids import new_id
from app.records.events import Quiz, Training
from app.records.ledger.door import append, history_of
from app.records.standing.settling import settle
from app.records.texts.in_force import text_hash
from app.trade.errors import Refusal
from app.workbook.attempts import (
    Answer,
    Attempt,
    answers_of,
    attempts_at,
    finish_attempt,
    keep_answer,
    keep_attempt,
)
from app.workbook.progress import mark_step_done, steps_done
from app.worker.asking import Asked, is_still_asked, items_for, question_at, quiz_rule
from app.worker.modules import in_force, module_state


@dataclass(frozen=True, slots=True)
class Doer:
    """Who acts, when and where, and how they see their pages.

    ``done_at`` is when it was really done, where a phone sent it later; ``carried_by`` who brought
    it in as a file for the person.
    """

    person_id: str
    now: datetime
    zone: ZoneInfo
    language: str = "en"
    units: str = "us"
    done_at: datetime | None = None
    carried_by: str = ""
    name: str = ""

    @property
    def moment(self) -> datetime:
        """When it was done."""
        return self.done_at or self.now

    @property
    def today(self) -> date:
        """The civil day where the firm works, of the moment it was done."""
        return self.moment.astimezone(self.zone).date()


class ReadTooNew(Refusal):
    """A phone says it showed a revision that is not there yet."""

    template = "Revision {revision} of these steps is not out yet."


def finish_step(
    connection: Connection, module: Module, step_id: str, doer: Doer, read: int | None = None
) -> tuple[str, ...]:
    """Note the step as done; the last one missing makes the training a record.

    ``read`` is the revision that was on the page, left out for the one in force. Returns the ids
    of the steps still to do, of the lesson as it is now. Sent twice, it changes nothing the second
    time. A step of an older revision is noted, but can't complete the steps of this one.
    """
    settled = settle(history_of(connection, doer.person_id))
    now_in_force = in_force(settled, module, doer.now.astimezone(doer.zone).date())
    revision = read or in_force(settled, module, doer.today)
    if revision > now_in_force:
        raise ReadTooNew(revision=revision)
    mark_step_done(connection, doer.person_id, module.id, revision, step_id, doer.moment)
    done = steps_done(connection, doer.person_id, module.id, revision)
    left = tuple(s.id for s in module.lesson("en").steps if s.id not in done)
    if left:
        return left
    own = settled.about(doer.person_id, doer.today)
    trained = [e for e in own if isinstance(e, Training) and e.module == module.id]
    if not any(event.revision == revision for event in trained):
        append(
            connection,
            Training(
                id=new_id(),
                occurred_on=doer.today,
                zone=doer.zone.key,
                recorded_at=doer.now,
                recorded_by=doer.carried_by or doer.person_id,
                person=doer.person_id,
                module=module.id,
                revision=revision,
                text_sha256=text_hash(settled, module, revision),
                language=doer.language,
            ),
        )
    return left


def start_quiz(
    connection: Connection, curriculum: Curriculum, module: Module, doer: Doer
) -> Attempt | None:
    """Open an attempt, or go on with the open one; None while steps are still to do."""
    settled = settle(history_of(connection, doer.person_id))
    state = module_state(module, settled, doer.person_id, doer.today, {})
    if not state.may_take_quiz:
        return None
    for attempt in attempts_at(connection, doer.person_id, module.id):
        is_open = attempt.finished_at is None and attempt.revision == state.revision
        if is_open and is_still_asked(curriculum, attempt):
            return attempt
    attempt_id = new_id()
    attempt = Attempt(
        id=attempt_id,
        person_id=doer.person_id,
        module_id=module.id,
        revision=state.revision,
        content_hash=module.content_hash,
        items=items_for(curriculum, module.id, attempt_id),
        language=doer.language,
        units=doer.units,
        started_at=doer.now,
    )
    keep_attempt(connection, attempt)
    return attempt


def answer_question(
    connection: Connection,
    curriculum: Curriculum,
    attempt: Attempt,
    asked: Asked,
    typed: str,
    marked: Marked,
    doer: Doer,
) -> None:
    """Keep a marked answer; the first one stands. The last one missing finishes the attempt."""
    answer = Answer(
        position=asked.position,
        item_id=asked.question.id,
        item_version=asked.question.version,
        typed=typed,
        read_as=marked.said if asked.variant is not None else "",
        is_right=marked.is_right,
        slip=marked.slip_id or "",
    )
    if not keep_answer(connection, attempt.id, answer, doer.now):
        return
    answers = answers_of(connection, attempt.id)
    if len(answers) == len(attempt.items):
        _finish(connection, curriculum, attempt, answers, doer)


def _finish(
    connection: Connection,
    curriculum: Curriculum,
    attempt: Attempt,
    answers: dict[int, Answer],
    doer: Doer,
) -> None:
    questions = [question_at(curriculum, attempt, place).question for place in answers]
    marks = {answer.item_id: answer.is_right for answer in answers.values()}
    rule = quiz_rule(curriculum, attempt.module_id)
    result = decide_quiz(questions, marks, rule.pass_share)
    finish_attempt(connection, attempt.id, result.passed, doer.now)
    append(
        connection,
        Quiz(
            id=attempt.id,
            occurred_on=doer.today,
            zone=doer.zone.key,
            recorded_at=doer.now,
            recorded_by=doer.carried_by or doer.person_id,
            person=doer.person_id,
            module=attempt.module_id,
            passed=result.passed,
            revision=attempt.revision,
            right=result.right,
            asked=result.asked,
            attempt=attempt.id,
            text_sha256=attempt.content_hash,
            language=attempt.language,
        ),
    )
