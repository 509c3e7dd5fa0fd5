"""What is missing: whoever is not qualified for something, and what each of them lacks."""

from flask import redirect, render_template, request, url_for
from werkzeug.wrappers import Response

from app.database import reading
from app.officer.blueprint import curriculum, officer, telling
from app.officer.board.missing_pages import missing_page
from app.officer.board.turning import page_asked, turn
from app.officer.forms import MissingForm
from app.records.policy import policy_from
from app.records.proof.checkpoint import newest_line
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
        number = page_asked()
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
        turn=turn(page.number, page.pages) if page else None,
        made_at=now(),
        checkpoint=checkpoint,
    )
    return shown if is_fine else (shown, 422)
