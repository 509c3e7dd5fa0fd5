"""The page of the crew check, the same for a trainer and for a safety officer."""

from collections.abc import Callable, Sequence

from flask import render_template, request
from flask_babel import format_date, format_datetime, gettext
from sqlalchemy import Connection

from app.accounts.people import names
from app.curriculum.crew import CrewNeeds, JobNeeds
from app.curriculum.model import Curriculum
from app.database import reading
from app.records.policy import policy_from
from app.records.proof.checkpoint import newest_line
from app.web.crew.form import CrewForm
from app.web.crew.pages import MOST_SHOWN, Candidate, candidates, crew_answer, to_be_shown
from app.web.crew.sets import set_choices
from app.web.crew.words import CrewWords
from app.web.forms import choice_list
from app.web.now import now, today, zone
from app.web.reason_words import ReasonWords
from app.web.texts import served_crew
from app.web.two_clocks import Clocks
from app.web.who import choice
from app.workbook.jobs import Job, job_titles

Crumbs = Sequence[tuple[str, str | None]]


def crew_page(
    curriculum: Curriculum,
    job: Job,
    crumbs: Crumbs,
    person_url: Callable[[str, Clocks], str | None],
) -> tuple[str, int]:
    """Ask who comes along on a job, and answer whether they can do it.

    person_url: where a name leads, or None where the reader may not go.
    """
    with reading() as connection:
        known = served_crew(connection)
    if known is None:
        return render_template("not-approved.html"), 404
    form = CrewForm(request.args)
    form.hands.choices = set_choices(known, curriculum, choice("language"))
    needs = _needs_asked(form, known, job)
    form.validate()
    if not request.args.get("as_of"):
        form.as_of.data = today()
    clocks = Clocks(form.as_of.data or today(), form.known_on.data, zone())
    policy = policy_from(curriculum)
    with reading() as connection:
        tell = CrewWords(_words(connection, curriculum), needs)
        found = candidates(connection, policy, needs, clocks, today())
        ticked = list(dict.fromkeys(form.person.data or []))
        is_fine = _is_asked() and form.may_be_checked({one.person.id for one in found})
        answer = None
        if is_fine:
            answer = crew_answer(connection, policy, needs, clocks, ticked, found)
        checkpoint = newest_line(connection)
    hidden = _show_choices(form, found, ticked, tell)
    page = render_template(
        "crew-check.html",
        form=form,
        job=job,
        crumbs=crumbs,
        answer=answer,
        tell=tell,
        clocks=clocks,
        needs=needs,
        hidden=hidden,
        person_url=lambda person: person_url(person, clocks),
        day=tell.words.show_day,
        made_at=_moment(),
        checkpoint=checkpoint,
        policy_version=curriculum.policy_version,
    )
    return page, 200 if is_fine or not form.errors else 422


def _needs_asked(form: CrewForm, known: CrewNeeds, job: Job) -> JobNeeds:
    """The hands named in the address, else the job's own; the form's choice shows which."""
    own = known.for_job(job.crew_set)
    if not form.hands.data:
        form.hands.data = own.set_id
    return known.of(form.hands.data) or own


def _is_asked() -> bool:
    """Whether the check was asked for, and not only a shorter list."""
    return "ask" in request.args


def _show_choices(
    form: CrewForm, found: list[Candidate], ticked: list[str], tell: CrewWords
) -> int:
    """Put the people into the form; return how many more there are than a page takes."""
    shown, hidden = to_be_shown(found, form.name.data or "", ticked[:MOST_SHOWN])
    form.person.choices = choice_list([(one.person.id, tell.choice(one)) for one in shown])
    return hidden


def _words(connection: Connection, curriculum: Curriculum) -> ReasonWords:
    return ReasonWords(
        translate=gettext,
        show_day=lambda on: format_date(on, "d MMM y"),
        language=choice("language"),
        curriculum=curriculum,
        names=names(connection) | job_titles(connection),
    )


def _moment() -> str:
    local = now().astimezone(zone())
    return format_datetime(local, "d MMM y, HH:mm", rebase=False) + f" {local.tzname()}"
