"""The crew check: choose a job, tick the people, read who fills which hand."""

from flask import abort, render_template, url_for
from flask_babel import gettext as _

from app.database import reading
from app.officer.blueprint import curriculum, officer
from app.web.crew.answering import crew_page
from app.workbook.jobs import all_jobs, job_by_id


@officer.get("/crews")
def crews() -> str:
    """List the jobs whose crew can be checked."""
    with reading() as connection:
        jobs = all_jobs(connection)
    return render_template("officer/crews.html", jobs=jobs)


@officer.get("/crews/<job>")
def crew(job: str) -> tuple[str, int]:
    """Ask who comes along on a job, and answer whether they can do it."""
    with reading() as connection:
        found = job_by_id(connection, job)
    if found is None:
        abort(404)
    return crew_page(
        curriculum(),
        found,
        crumbs=[
            (_("Board"), url_for("officer.board")),
            (_("Crews"), url_for("officer.crews")),
            (found.title, None),
        ],
        person_url=lambda person, clocks: url_for("officer.person", person=person, **clocks.query),
    )
