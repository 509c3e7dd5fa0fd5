"""The crew of a job: tick the people, read who fills which hand."""

from flask import url_for
from flask_babel import gettext as _

from app.trainer.blueprint import Page, curriculum, job_or_404, trainer
from app.web.crew.answering import crew_page


@trainer.get("/jobs/<job>/crew")
def crew(job: str) -> Page:
    """Ask who comes along on a job, and answer whether they can do it."""
    found = job_or_404(job)
    crumbs = [
        (_("Jobs"), url_for("trainer.jobs")),
        (found.site, url_for("trainer.job", job=found.id)),
        (_("Crew check"), None),
    ]
    return crew_page(curriculum(), found, crumbs, person_url=lambda person, clocks: None)
