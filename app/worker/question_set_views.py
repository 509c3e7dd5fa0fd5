"""Practice questions of a module: a set on one page, marked here or on the phone."""

from dataclasses import dataclass

from flask import render_template, request
from flask_babel import gettext as _

from app.curriculum.questions.items import ComputedQuestion
from app.curriculum.questions.marking import NoSuchOption
from app.database import writing
from app.trade.errors import Refusal
from app.web.now import now, today
from app.web.telling import tell
from app.web.who import choice, signed_in
from app.worker.asking import Asked
from app.worker.blueprint import curriculum, module_or_404, worker
from app.worker.explaining import Explained, explain_asked
from app.worker.forms import typed_hint
from app.worker.question_data import set_data
from app.worker.question_sets import (
    ROUNDS,
    QuestionSet,
    as_answer,
    keep_answered,
    mark,
    question_set,
)

MOST_ROUNDS = 99


@dataclass(frozen=True, slots=True)
class Card:
    """A question on the page: what was typed, what is wrong with it, or how it was marked."""

    asked: Asked
    words: str
    hint: str
    typed: str = ""
    wrong: str = ""
    explained: Explained | None = None


@worker.get("/learn/<module>/practice")
def practice_questions(module: str) -> str:
    """Show a set of practice questions; ``?round=2`` is the second set of the day."""
    number = request.args.get("round", 1, type=int)
    return _page(_set(module, number), {})


@worker.post("/learn/<module>/practice")
def practice_answered(module: str) -> str:
    """Mark what was answered so far, and keep it."""
    questions = _set(module, request.form.get("round", 1, type=int))
    typed = {
        one.position: request.form.get(f"answer-{one.position}", "") for one in questions.asked
    }
    cards = {one.position: _marked(questions, one, typed[one.position]) for one in questions.asked}
    return _page(questions, cards)


def _set(module_id: str, number: int) -> QuestionSet:
    number = number if 1 <= number <= MOST_ROUNDS else 1
    return question_set(module_or_404(module_id), signed_in().id, today().isoformat(), number)


def _marked(questions: QuestionSet, asked: Asked, typed: str) -> Card:
    if not typed.strip():
        return _card(asked)
    try:
        marked = mark(asked, typed)
    except NoSuchOption:
        return _card(asked, wrong=_("Choose one of the answers shown."))
    except Refusal as refusal:
        return _card(asked, typed, wrong=tell(refusal))
    answer = as_answer(asked, typed[:80], marked)
    with writing() as connection:
        keep_answered(connection, questions, asked, answer, now())
    return _card(
        asked, typed, explained=explain_asked(curriculum(), asked, answer, choice("language"))
    )


def _card(
    asked: Asked, typed: str = "", wrong: str = "", explained: Explained | None = None
) -> Card:
    question = asked.question
    hint = typed_hint(question) if isinstance(question, ComputedQuestion) else ""
    return Card(asked, asked.words(choice("language")), hint, typed, wrong, explained)


def _page(questions: QuestionSet, cards: dict[int, Card]) -> str:
    """Render a round; the first page of a day brings the next rounds along for the phone."""
    module, language = questions.module, choice("language")
    rounds = [questions]
    if questions.round == 1 and not cards:
        person_id, day = questions.person_id, questions.day
        rounds += [question_set(module, person_id, day, n) for n in range(2, ROUNDS + 1)]
    return render_template(
        "worker/practice-questions.html",
        module=module,
        lesson=module.lesson(language),
        day=questions.day,
        revision=module.revision,
        sets=[[cards.get(a.position) or _card(a) for a in one.asked] for one in rounds],
        number=questions.round,
        next_number=questions.round % MOST_ROUNDS + 1,
        rounds_data=[set_data(curriculum(), one, language) for one in rounds],
    )
