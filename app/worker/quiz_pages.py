"""What the quiz pages need. No Flask here."""

from dataclasses import dataclass

from sqlalchemy import Connection

from app.curriculum.model import Curriculum
from app.curriculum.questions.marking import QuizResult, decide_quiz
from app.workbook.attempts import Answer, Attempt, answers_of, attempt_by_id
from app.worker.asking import QuestionChanged, question_at, quiz_rule
from app.worker.explaining import Explained, explain_all


@dataclass(frozen=True, slots=True)
class OpenedAttempt:
    """An attempt with the answers given so far, by position."""

    attempt: Attempt
    answers: dict[int, Answer]

    @property
    def total(self) -> int:
        """How many questions are asked."""
        return len(self.attempt.items)

    @property
    def first_open(self) -> int | None:
        """The first position without an answer; None when all have one."""
        return next((n for n in range(1, self.total + 1) if n not in self.answers), None)


def own_attempt(connection: Connection, attempt_id: str, person_id: str) -> OpenedAttempt | None:
    """Return the attempt if it is this person's, else None."""
    attempt = attempt_by_id(connection, attempt_id)
    if attempt is None or attempt.person_id != person_id:
        return None
    return OpenedAttempt(attempt, answers_of(connection, attempt_id))


@dataclass(frozen=True, slots=True)
class ResultPage:
    """A finished attempt: the count, the gate, and every answer explained.

    ``needed`` is None where the questions have changed since and the rule can't be asked again.
    """

    attempt: Attempt
    is_passed: bool
    right: int
    asked: int
    needed: int | None
    is_gate_missed: bool
    explained: list[Explained]

    @property
    def wrong(self) -> list[Explained]:
        """The answers that were wrong, the must-know ones first."""
        return sorted(
            (one for one in self.explained if not one.is_right),
            key=lambda one: (not one.is_must_know, one.position),
        )


def result_page(opened: OpenedAttempt, curriculum: Curriculum, language: str) -> ResultPage:
    """Gather the result of a finished attempt; passed or not stays as it was decided then."""
    attempt, answers = opened.attempt, opened.answers
    result = _decided(opened, curriculum)
    return ResultPage(
        attempt=attempt,
        is_passed=bool(attempt.is_passed),
        right=sum(answer.is_right for answer in answers.values()),
        asked=len(answers),
        needed=result.needed if result else None,
        is_gate_missed=bool(result and result.must_know_missed),
        explained=explain_all(curriculum, attempt, answers, language),
    )


def _decided(opened: OpenedAttempt, curriculum: Curriculum) -> QuizResult | None:
    try:
        questions = [question_at(curriculum, opened.attempt, n).question for n in opened.answers]
    except QuestionChanged:
        return None
    marks = {answer.item_id: answer.is_right for answer in opened.answers.values()}
    rule = quiz_rule(curriculum, opened.attempt.module_id)
    return decide_quiz(questions, marks, rule.pass_share)
