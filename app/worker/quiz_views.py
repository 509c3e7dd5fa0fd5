"""The quiz: start, one question a page, the result. HTTP only: parse, call, answer."""

from flask import abort, flash, redirect, render_template, request, url_for
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.curriculum.questions.items import ChoiceQuestion, ComputedQuestion
from app.curriculum.questions.marking import Marked, NoSuchOption, mark_choice, mark_computed
from app.database import reading, writing
from app.records.texts.kept import is_kept
from app.trade.errors import Refusal
from app.web.telling import say, tell
from app.web.who import choice, signed_in
from app.worker.actions import answer_question, start_quiz
from app.worker.asking import Asked, is_still_asked, question_at
from app.worker.blueprint import curriculum, doer, module_or_404, worker
from app.worker.explaining import explain
from app.worker.forms import ChoiceForm, TypedForm, choice_form, typed_hint
from app.worker.quiz_pages import OpenedAttempt, own_attempt, result_page

Page = str | tuple[str, int]


@worker.post("/learn/<module>/quiz")
def start(module: str) -> Response:
    """Start the quiz, or go on with the one that is open."""
    found = module_or_404(module)
    with writing() as connection:
        attempt = start_quiz(connection, curriculum(), found, doer())
    if attempt is None:
        flash(_("The quiz opens once every step is done."))
        return redirect(url_for("worker.module", module=module), 303)
    return redirect(url_for("worker.result", attempt=attempt.id), 303)


@worker.get("/quiz/<attempt>")
def result(attempt: str) -> Response | str:
    """Show a finished attempt's result; an open one goes on where it stopped."""
    opened = _own_or_404(attempt)
    module = curriculum().modules.get(opened.attempt.module_id)
    if opened.first_open is not None:
        return _to_question(opened, opened.first_open)
    page = result_page(opened, curriculum(), choice("language"))
    with reading() as connection:
        has_text = is_kept(connection, opened.attempt.content_hash)
    return render_template("worker/result.html", page=page, module=module, has_text=has_text)


@worker.get("/quiz/<attempt>/<int:position>")
def question(attempt: str, position: int) -> Response | Page:
    """Show one question: to answer, or marked and explained."""
    opened = _own_or_404(attempt, position)
    if position in opened.answers:
        return _marked(opened, position)
    if position != opened.first_open:
        return _to_question(opened, opened.first_open or position)
    if not is_still_asked(curriculum(), opened.attempt):
        return _changed(opened)
    asked = question_at(curriculum(), opened.attempt, position)
    return _to_answer(opened, asked, _form_for(asked))


@worker.post("/quiz/<attempt>/<int:position>")
def answer(attempt: str, position: int) -> Response | Page:
    """Read or mark an answer; one that was marked already stands."""
    opened = _own_or_404(attempt, position)
    if position in opened.answers or position != opened.first_open:
        return _to_question(opened, position)
    if not is_still_asked(curriculum(), opened.attempt):
        return _changed(opened)
    asked = question_at(curriculum(), opened.attempt, position)
    form = _form_for(asked)
    if not form.validate_on_submit():
        return _to_answer(opened, asked, form, code=422)
    if isinstance(form, ChoiceForm):
        return _choose(opened, asked, form)
    return _type(opened, asked, form)


def _choose(opened: OpenedAttempt, asked: Asked, form: ChoiceForm) -> Response | Page:
    assert isinstance(asked.question, ChoiceQuestion)
    try:
        marked = mark_choice(asked.question, form.option.data)
    except NoSuchOption:
        form.option.errors = [_("Choose one of the answers shown.")]
        return _to_answer(opened, asked, form, code=422)
    return _keep(opened, asked, form.option.data, marked)


def _type(opened: OpenedAttempt, asked: Asked, form: TypedForm) -> Response | Page:
    """Read it back first; mark it only when asked to."""
    assert isinstance(asked.question, ComputedQuestion)
    assert asked.variant is not None
    act = request.form.get("act", "read")
    if act == "change":
        return _to_answer(opened, asked, form)
    typed = form.answer.data or ""
    try:
        marked = mark_computed(asked.question, asked.variant, typed)
    except Refusal as refusal:
        form.answer.errors = [tell(refusal)]
        return _to_answer(opened, asked, form, code=422)
    if act != "mark":
        return _to_answer(opened, asked, form, said=say(marked.said))
    return _keep(opened, asked, typed, marked)


def _keep(opened: OpenedAttempt, asked: Asked, typed: str, marked: Marked) -> Response:
    with writing() as connection:
        answer_question(connection, curriculum(), opened.attempt, asked, typed, marked, doer())
    return _to_question(opened, asked.position)


def _form_for(asked: Asked) -> ChoiceForm | TypedForm:
    if isinstance(asked.question, ChoiceQuestion):
        return choice_form(asked.options, choice("language"))
    return TypedForm()


def _to_answer(
    opened: OpenedAttempt,
    asked: Asked,
    form: ChoiceForm | TypedForm,
    said: str = "",
    code: int = 200,
) -> Page:
    typed = asked.question if isinstance(asked.question, ComputedQuestion) else None
    page = render_template(
        "worker/question.html",
        opened=opened,
        asked=asked,
        words=asked.words(choice("language")),
        module=curriculum().module(opened.attempt.module_id),
        form=form,
        hint=typed_hint(typed) if typed else "",
        said=said,
    )
    return page, code


def _marked(opened: OpenedAttempt, position: int) -> str:
    return render_template(
        "worker/marked.html",
        opened=opened,
        position=position,
        module=curriculum().modules.get(opened.attempt.module_id),
        explained=explain(
            curriculum(), opened.attempt, opened.answers[position], choice("language")
        ),
    )


def _own_or_404(attempt_id: str, position: int = 1) -> OpenedAttempt:
    with reading() as connection:
        opened = own_attempt(connection, attempt_id, signed_in().id)
    if opened is None or not 1 <= position <= opened.total:
        abort(404)
    return opened


def _to_question(opened: OpenedAttempt, position: int) -> Response:
    url = url_for("worker.question", attempt=opened.attempt.id, position=position)
    return redirect(url, 303)


def _changed(opened: OpenedAttempt) -> Response:
    flash(_("The questions were changed while this quiz was open. Start it again."))
    module = opened.attempt.module_id
    if module not in curriculum().modules:
        return redirect(url_for("worker.learn"), 303)
    return redirect(url_for("worker.module", module=module), 303)
