"""Load the invented crew into an empty database, all of it or nothing."""

from datetime import datetime
from zoneinfo import ZoneInfo

from sqlalchemy import Connection, insert

from app.accounts.people import add_person, count_people
from app.curriculum.model import Curriculum
from app.demo.crew import DEMO_PASSWORD, EVERYBODY
from app.demo.sites import JOBS, RESINS
from app.demo.story import story
from app.demo.telling import Teller
from app.ids import new_id
from app.trade.errors import Refusal
from app.workbook.tables import job, resin


class NotEmpty(Refusal):
    """The demo never mixes with real people."""

    template = "There are already {count} people here. The demo loads into an empty database only."


def load_demo(connection: Connection, curriculum: Curriculum, now: datetime, zone: str) -> None:
    """Add people, resins, jobs and the story; raise NotEmpty where there is anybody."""
    count = count_people(connection)
    if count:
        raise NotEmpty(count=count)
    people = {
        member.sign_in_name: add_person(
            connection,
            sign_in_name=member.sign_in_name,
            printed_name=member.printed_name,
            password=DEMO_PASSWORD,
            roles=member.roles,
        )
        for member in EVERYBODY
    }
    names = {member.sign_in_name: member.printed_name for member in EVERYBODY}
    jobs = _add_jobs(connection, people["tomas"], now)
    today = now.astimezone(ZoneInfo(zone)).date()
    teller = Teller(connection, curriculum, zone, today, dict(people), names, jobs)
    for told in story():
        teller.tell(told)


def _add_jobs(connection: Connection, trainer: str, now: datetime) -> dict[str, str]:
    stamp = {"created_by": trainer, "created_at": now.replace(tzinfo=None), "is_invented": True}
    resins = {}
    for key, values in RESINS.items():
        resins[key] = new_id()
        connection.execute(insert(resin).values(id=resins[key], **values, **stamp))
    jobs = {}
    for key, values in JOBS.items():
        jobs[key] = new_id()
        row = {k: v for k, v in values.items() if k != "resin"}
        row |= {"id": jobs[key], "resin_id": resins[values["resin"]], **stamp}
        connection.execute(insert(job).values(row))
    return jobs
