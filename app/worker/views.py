"""Learning pages and the worker's own standing. HTTP only: parse, call, answer."""

from flask import abort, flash, redirect, render_template, url_for
from flask_babel import gettext
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.accounts.people import names
from app.database import reading, writing
from app.records.ledger.door import history_of
from app.records.standing.settling import settle
from app.web.now import today
from app.web.reason_words import ReasonWords
from app.web.texts import text_shelf
from app.web.who import choice, signed_in
from app.worker import (  # they register themselves
    confirm_views,  # noqa: F401
    question_set_views,  # noqa: F401
    quiz_views,  # noqa: F401
)
from app.worker.actions import finish_step
from app.worker.blueprint import curriculum, doer, module_or_404, worker
from app.worker.confirming import waiting_for
from app.worker.pages import learn_page, module_page, step_page
from app.worker.standing_pages import entries, job_titles, standings_of
from app.worker.words import civil, day, module_ports, state_words, why_next


@worker.get("/learn")
def learn() -> str:
    """Show which module is next and why, and how far the person is in each."""
    with reading() as connection:
        page = learn_page(connection, curriculum(), signed_in().id, today())
    language = choice("language")
    here = page.next.state.module.id if page.next else ""
    return render_template(
        "worker/learn.html",
        page=page,
        ports=module_ports(page.states, here, language),
        why=why_next(page.next, curriculum(), language) if page.next else "",
        qualifications=list(curriculum().qualifications.values()),
        language=language,
    )


@worker.get("/learn/<module>")
def module(module: str) -> str:
    """Show a module: what it is about, its steps, its quiz."""
    with reading() as connection:
        found = module_or_404(module, connection)
        page = module_page(connection, found, signed_in().id, today(), choice("language"))
    days = {a.id: day(civil(a.finished_at)) for a in page.finished if a.finished_at}
    return render_template(
        "worker/module.html", page=page, state_words=state_words(page.state), finished_days=days
    )


@worker.get("/learn/<module>/steps/<int:number>")
def step(module: str, number: int) -> str:
    """Show one step as a card."""
    language = choice("language")
    with reading() as connection:
        found = module_or_404(module, connection)
        settled = text_shelf().settled(connection)
        page = step_page(connection, settled, found, number, signed_in().id, today(), language)
    if page is None:
        abort(404)
    sources = tuple((name, curriculum().source(name)) for name in page.step.source_ids())
    return render_template("worker/step.html", page=page, module_id=module, sources=sources)


@worker.post("/learn/<module>/steps/<int:number>")
def step_done(module: str, number: int) -> Response:
    """Note the step as done and go on to the next one."""
    found = module_or_404(module)
    steps = found.lesson(choice("language")).steps
    if not 1 <= number <= len(steps):
        abort(404)
    with writing() as connection:
        left = finish_step(connection, found, steps[number - 1].id, doer())
    if number < len(steps):
        return redirect(url_for("worker.step", module=module, number=number + 1), 303)
    if not left:
        flash(_("You have done every step. That is on your record. The quiz is next."))
        return redirect(url_for("worker.module", module=module), 303)
    flash(_("One step before this is not done yet. It is this one."))
    missed = next(one.number for one in steps if one.id in left)
    return redirect(url_for("worker.step", module=module, number=missed), 303)


@worker.get("/my-standing")
def my_standing() -> str:
    """Show each qualification's standing today, with every reason and what is missing."""
    person, on = signed_in(), today()
    with reading() as connection:
        events = history_of(connection, person.id)
        known = names(connection) | job_titles(connection, events)
        to_confirm = len(waiting_for(connection, curriculum(), person.id))
    telling = ReasonWords(
        translate=gettext,
        show_day=day,
        language=choice("language"),
        curriculum=curriculum(),
        names=known,
    )
    settled = settle(events)
    signs_for = {q for q in curriculum().qualifications if settled.may_sign(person.id, q, on)}
    standings = standings_of(curriculum(), settled, person.id, on)
    listed = entries(standings, events, telling, frozenset(signs_for))
    return render_template(
        "worker/standing.html", entries=listed, on=day(on), to_confirm=to_confirm
    )
