"""A signed record as anybody who trains may read it, and countering it. HTTP only."""

from typing import Any

from flask import abort, flash, render_template
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.accounts.people import names
from app.curriculum.scoring import Score
from app.database import reading, writing
from app.ids import new_id
from app.records.events import Practical, Watched
from app.records.ledger.door import event_by_id, receipt_of
from app.records.observation import Observation
from app.trainer.blueprint import Page, curriculum, doer, to_repair, trainer
from app.trainer.doing import Refused
from app.trainer.forms import CounterForm
from app.trainer.signing.pages import around, batch_lines, module_lines, score_of
from app.trainer.signing.standing_after import standing_after
from app.trainer.signing.vouching import counter
from app.trainer.words import score_reason, tell_refusal
from app.web.device_words import signed_on_phone
from app.web.photo_answer import photo_answer, photos_here
from app.web.who import choice, signed_in
from app.workbook.jobs import job_titles


def record_page(record_id: str, form: CounterForm | None = None, code: int = 200) -> Page:
    """Show a signed record, read-only; whoever signed it may counter it with a reason."""
    with reading() as connection:
        event = event_by_id(connection, record_id)
        if not isinstance(event, Watched):
            abort(404)
        later = around(connection, event)
        known, jobs = names(connection), job_titles(connection)
        receipt = receipt_of(connection, record_id)
        after = standing_after(connection, curriculum(), event, doer(), known | jobs)
    observation = event.observation if isinstance(event, Practical) else None
    page = render_template(
        "trainer/record.html",
        event=event,
        observation=observation,
        later=later,
        receipt=receipt,
        after=after,
        names=known,
        job_title=jobs.get(event.job, event.job),
        qualification=title_of(event.qualification),
        form=form or CounterForm(),
        on_phone=signed_on_phone(event),
        photos_here=photos_here(record_id),
        asks_worker=_asks_worker(event),
        may_counter=event.trainer == signed_in().id and later.countered is None,
        **(as_signed(observation, event.qualification) if observation else {}),
    )
    return page, code


def _asks_worker(event: Watched) -> bool:
    """Whether the rule asks the person who was watched for their own word."""
    found = curriculum().qualifications.get(event.qualification)
    asked = found is not None and found.worker_countersign != "off"
    return asked and isinstance(event, Practical)


def as_signed(observation: Observation, qualification: str) -> dict[str, Any]:
    """What the template of a record takes: the same before signing and ever after."""
    score = score_of(curriculum(), qualification, observation)
    return {
        "modules": module_lines(curriculum(), observation),
        "module_titles": {
            name: module.lesson(choice("language")).title
            for name, module in curriculum().modules.items()
        },
        "batch_lines": batch_lines(observation),
        "score": score,
        "score_reasons": reason_words(score) if score else [],
    }


def reason_words(score: Score) -> list[tuple[str, str]]:
    """Why it is not a pass yet: pairs (symbol, sentence)."""
    return [("no", score_reason(reason, _item_words(reason.item))) for reason in score.reasons]


def _item_words(name: str) -> str:
    module_id, _slash, item_id = name.partition("/")
    module = curriculum().modules.get(module_id)
    items = module.checklist if module else ()
    item = next((one for one in items if one.id == item_id), None)
    return item.text.in_language(choice("language")) if item else name


def title_of(qualification: str) -> str:
    """A qualification's title in the page's language; its id where it is gone."""
    found = curriculum().qualifications.get(qualification)
    return found.title.in_language(choice("language")) if found else qualification


@trainer.get("/repairs/<record_id>/photos/<photo>")
def photo(record_id: str, photo: str) -> Response:
    """Serve one photo that was signed with the record."""
    return photo_answer(record_id, photo)


@trainer.post("/repairs/<repair>/counter")
def counter_record(repair: str) -> Response | Page:
    """Make a record void by a later one, with a reason; it stays readable."""
    with reading() as connection:
        event = event_by_id(connection, repair)
    if not isinstance(event, Watched) or event.trainer != signed_in().id:
        abort(404)
    form = CounterForm()
    if not form.validate_on_submit():
        return record_page(repair, form, 422)
    with writing() as connection:
        typed = (form.reason.data, form.password.data)
        done = counter(connection, curriculum(), new_id(), repair, *typed, doer())
    if isinstance(done, Refused):
        form[done.field].errors = [tell_refusal(done.refusal, curriculum())]
        return record_page(repair, form, 422)
    flash(_("The record is void. It can still be read, with your reason."))
    return to_repair(repair)
