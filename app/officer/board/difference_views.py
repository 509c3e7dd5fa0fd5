"""What did we believe then, and what do we know now? HTTP only: parse, call, answer."""

from datetime import date, timedelta

from flask import render_template, request
from sqlalchemy import Connection

from app.accounts.people import Person
from app.database import reading
from app.officer.blueprint import officer, person_or_404, telling
from app.officer.board.difference_pages import Asked, differences_page
from app.officer.board.difference_words import days_changed, late_words
from app.officer.board.turning import page_asked, turn
from app.officer.forms import DifferencesForm
from app.records.proof.checkpoint import newest_line
from app.web.now import now, today, zone
from app.web.policies_then import policies_between
from app.web.texts import text_shelf
from app.web.two_clocks import Clocks


@officer.get("/differences")
def compare() -> str | tuple[str, int]:
    """List whose standing of a day looks different now, and the records that made it so."""
    about = person_or_404(request.args["person"]) if request.args.get("person") else None
    form = DifferencesForm(request.args)
    is_fine = form.validate()
    _fill_in(form)
    then, clocks = _clocks(form)
    page = words = asked = None
    checkpoint = ""
    if is_fine:
        number = page_asked()
        with reading() as connection:
            words = telling(connection)
            asked = _asked(connection, then, clocks, about)
            page = differences_page(connection, asked, number)
            checkpoint = newest_line(connection)
    shown = render_template(
        "officer/differences.html",
        form=form,
        about=about,
        page=page,
        switches=asked.switches if asked else (),
        words=words,
        then=then,
        clocks=clocks,
        days_changed=days_changed,
        late_words=late_words,
        turn=turn(page.number, page.pages) if page else None,
        made_at=now(),
        checkpoint=checkpoint,
    )
    return shown if is_fine else (shown, 422)


def _fill_in(form: DifferencesForm) -> None:
    """Days left out: today, believed a month before it; or a day gone by, believed on itself."""
    if not request.args.get("as_of"):
        form.as_of.data = today()
    if not request.args.get("then") and form.as_of.data:
        form.then.data = believed_on(form.as_of.data, today())


def believed_on(as_of: date, on: date) -> date:
    """When a day is best asked to have been believed, if nobody says."""
    return as_of if as_of < on else on - timedelta(days=30)


def _clocks(form: DifferencesForm) -> tuple[Clocks, Clocks]:
    as_of, then = form.as_of.data or today(), form.then.data or today()
    return Clocks(as_of, then, zone()), Clocks(as_of, form.known_on.data, zone())


def _asked(connection: Connection, then: Clocks, clocks: Clocks, about: Person | None) -> Asked:
    known_at = then.known_at
    assert known_at is not None
    end = clocks.known_at or now()
    policy, switches = policies_between(connection, text_shelf(), zone(), known_at, end)
    who = about.id if about else ""
    return Asked(clocks.as_of, known_at, clocks.known_at, policy, switches, who)
