"""What a trainer does with the working papers: start a repair, give it up. No Flask here.

Every function runs inside the caller's writing transaction, so that all of an act is kept or none.
"""

from datetime import date

from sqlalchemy import Connection

from app.accounts.people import person_by_id
from app.curriculum.model import Curriculum
from app.ids import new_id
from app.records.deciding.acts import must_be_authorised, stamped
from app.records.deciding.refusals import SelfSignOff, TrainerNotAuthorised
from app.records.ledger.door import history_of
from app.records.standing.settling import Settled, settle
from app.trade.errors import Refusal
from app.trainer.doing import Doer, Refused
from app.workbook.jobs import Job
from app.workbook.observations import Watching, keep_observation, open_observations


class NobodyChosen(Refusal):
    """The person chosen does not exist or no longer works here."""

    template = "Choose a person from the list."


def start_repair(
    connection: Connection,
    job: Job,
    person_id: str,
    qualification_id: str,
    occurred_on: date,
    doer: Doer,
) -> Watching | Refused:
    """Open the papers of a supervised repair, or go on with the ones that are open already."""
    person = person_by_id(connection, person_id)
    if person is None or not person.is_active:
        return Refused("person", NobodyChosen())
    settled = settle(history_of(connection, person_id, doer.person_id))
    refused = may_watch(settled, person_id, qualification_id, occurred_on, doer)
    if refused is not None:
        return refused
    for earlier in open_observations(connection, doer.person_id):
        same = (earlier.job_id, earlier.person_id, earlier.qualification_id, earlier.occurred_on)
        if same == (job.id, person_id, qualification_id, occurred_on):
            return earlier
    new = Watching(
        id=new_id(),
        job_id=job.id,
        person_id=person_id,
        trainer_id=doer.person_id,
        qualification_id=qualification_id,
        occurred_on=occurred_on,
        overall="",
        remarks="",
        started_at=doer.now,
    )
    keep_observation(connection, new)
    return new


def may_watch(
    settled: Settled, person_id: str, qualification_id: str, occurred_on: date, doer: Doer
) -> Refused | None:
    """Say at once what the signature would be refused for, hours of work later."""
    if settled.who(person_id) == settled.who(doer.person_id):
        return Refused("person", SelfSignOff())
    try:
        stamped(doer.act("none yet", occurred_on))
        must_be_authorised(settled, doer.person_id, qualification_id, occurred_on)
    except TrainerNotAuthorised as refusal:
        return Refused("qualification", refusal)
    except Refusal as refusal:
        return Refused("occurred_on", refusal)
    return None


def may_sign_today(connection: Connection, curriculum: Curriculum, doer: Doer) -> dict[str, bool]:
    """Say for each qualification whether the trainer is authorised for it today."""
    settled = settle(history_of(connection, doer.person_id))
    return {
        name: settled.may_sign(doer.person_id, name, doer.today)
        for name in curriculum.qualifications
    }
