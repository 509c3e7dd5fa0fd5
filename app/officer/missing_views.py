"""What is missing: whoever is not qualified for something, and what each of them lacks."""

from typing import Any

from flask import redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from app.database import reading
from app.officer.blueprint import curriculum, officer, telling
from app.officer.forms import MissingForm
from app.officer.missing_pages import MissingPage, missing_page
from app.records.checkpoint import newest_line
from app.records.policy import policy_from
from app.web.forms import choice_list
from app.web.now import now, today, zone
from app.web.two_clocks import Clocks
from app.web.who import choice


@officer.get("/missing")
def missing() -> Response | str | tuple[str, int]:
    """List whoever is not qualified on a day, as known on a day, with what is missing."""
    form = MissingForm(request.args)
    titles = [
        (one.id, one.title.in_language(choice("language")))
        for one in curriculum().qualifications.values()
    ]
    if not titles:
        return redirect(url_for("officer.texts"))
    form.qualification.choices = choice_list(titles)
    form.qualification.data = request.args.get("qualification") or titles[0][0]
    is_fine = form.validate()
    if not request.args.get("as_of"):
        form.as_of.data = today()
    clocks = Clocks(form.as_of.data or today(), form.known_on.data, zone())
    page = words = None
    checkpoint = ""
    if is_fine:
        number = request.args.get("page", 1, type=int)
        asked = form.qualification.data
        with reading() as connection:
            words = telling(connection)
            page = missing_page(connection, policy_from(curriculum()), asked, clocks, number)
            checkpoint = newest_line(connection)
    shown = render_template(
        "officer/missing.html",
        form=form,
        page=page,
        words=words,
        clocks=clocks,
        turn=_turn(page) if page else None,
        made_at=now(),
        checkpoint=checkpoint,
    )
    return shown if is_fine else (shown, 422)


def _turn(page: MissingPage) -> dict[str, Any]:
    """The links to the page before and the page after."""
    kept = {name: value for name, value in request.args.items() if name != "page"}
    number, pages = page.number, page.pages
    return {
        "number": number,
        "pages": pages,
        "before": url_for("officer.missing", **kept, page=number - 1) if number > 1 else None,
        "after": url_for("officer.missing", **kept, page=number + 1) if number < pages else None,
    }
