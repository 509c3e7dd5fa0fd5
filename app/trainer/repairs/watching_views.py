"""Watching: one checklist, one item a card, the overall judgement. HTTP only."""

from flask import abort, redirect, render_template, url_for
from werkzeug.exceptions import MethodNotAllowed
from werkzeug.wrappers import Response

from app.curriculum.model import ChecklistItem, Module
from app.database import writing
from app.trade.errors import Refusal
from app.trade.lengths import read_quantity
from app.trainer.blueprint import Page, curriculum, papers_or_404, trainer
from app.trainer.forms import range_words
from app.trainer.numbers import decimal_text
from app.trainer.repairs.forms import (
    ItemForm,
    item_form,
    judgement_form,
    refuse_incomplete,
    typed_values,
)
from app.trainer.repairs.judging import NotPossible, judge
from app.trainer.repairs.papers import Papers, papers_of
from app.trainer.verdict_words import told
from app.web.telling import say
from app.web.who import choice, signed_in
from app.workbook.observations import SeenItem, keep_measured, keep_outcome, set_judgement

# Acts on a repair stand where a module's name stands; looking at them is not possible.
SENT_ONLY = ("sign", "drop", "counter")


@trainer.get("/repairs/<repair>/<module>")
def watch_module(repair: str, module: str) -> str:
    """Show one checklist: what was noted, what is still to see."""
    if module in SENT_ONLY:
        raise MethodNotAllowed(valid_methods=["POST"])
    papers = papers_or_404(repair)
    found = _module_or_404(papers, module)
    places = list(papers.modules)
    after = places[places.index(found) + 1 :]
    return render_template(
        "trainer/watch-module.html",
        papers=papers,
        module=found,
        first_open=next((i.id for i in found.checklist if not _is_noted(papers, found, i)), ""),
        next_module=after[0] if after else None,
    )


@trainer.route("/repairs/<repair>/<module>/<item>", methods=["GET", "POST"])
def watch_item(repair: str, module: str, item: str) -> Response | Page:
    """Show one item as a card; note how it went, and judge what was measured at once."""
    papers = papers_or_404(repair)
    found, watched = _item_or_404(papers, module, item)
    kept = papers.measured.get((module, item), {})
    form = item_form(watched, choice("language"), **{n: one.typed for n, one in kept.items()})
    if not form.is_submitted():
        seen = papers.seen.get((module, item))
        form.reason.data = seen.reason if seen else ""
        return _card(papers, found, watched, form, 200)
    is_valid = form.validate() and _is_possible(papers, watched, form)
    if not is_valid or refuse_incomplete(form, watched, bool(papers.ports)):
        return _card(papers, found, watched, form, 422)
    _keep(repair, (module, item), watched, form)
    if watched.measures or not form.outcome.data:
        return redirect(_url(repair, found, watched) + "#verdict", 303)
    return redirect(_url_after(repair, found, watched), 303)


def _is_possible(papers: Papers, item: ChecklistItem, form: ItemForm) -> bool:
    """Refuse numbers that no gauge can have shown, beside their field."""
    values = {
        m.id: form[m.id].quantity_data for m in item.measures if form[m.id].reading is not None
    }
    try:
        judge(item, values, papers.given)
    except NotPossible as wrong:
        field = form[wrong.measure_id]
        said = field.reading.said if field.reading else field.data
        field.errors = [range_words(said, wrong.low, wrong.high, field.quantity)]
        return False
    return True


def _keep(repair: str, key: tuple[str, str], item: ChecklistItem, form: ItemForm) -> None:
    names = tuple(measure.id for measure in item.measures)
    with writing() as connection:
        if papers_of(connection, curriculum(), repair, signed_in().id) is None:
            abort(404)
        keep_measured(connection, repair, key, typed_values(form, names, decimal_text))
        if form.outcome.data:
            seen = SeenItem(form.outcome.data, form.reason.data or "")
            keep_outcome(connection, repair, key, seen)


def _card(
    papers: Papers, module: Module, item: ChecklistItem, form: ItemForm, code: int
) -> tuple[str, int]:
    number = module.checklist.index(item) + 1
    seen = papers.seen.get((module.id, item.id))
    page = render_template(
        "trainer/watch-item.html",
        papers=papers,
        module=module,
        item=item,
        number=number,
        form=form,
        seen=seen,
        echoes=_echoes(item, form),
        verdict=told(papers, module, item) if code == 200 else None,
        before=module.checklist[number - 2] if number > 1 else None,
        after_url=_url_after(papers.watching.id, module, item),
    )
    return page, code


def _echoes(item: ChecklistItem, form: ItemForm) -> dict[str, str]:
    """What was read of each measured value."""
    found = {}
    for measure in item.measures:
        try:
            typed = form[measure.id].data or ""
            found[measure.id] = say(read_quantity(typed, measure.quantity, measure.unit).said)
        except Refusal:
            continue
    return found


@trainer.route("/repairs/<repair>/judgement", methods=["GET", "POST"])
def judgement(repair: str) -> Response | Page:
    """Note the overall judgement and the remarks."""
    papers = papers_or_404(repair)
    known = {"overall": papers.watching.overall, "remarks": papers.watching.remarks}
    form = judgement_form(known)
    if not form.validate_on_submit():
        page = render_template("trainer/judgement.html", papers=papers, form=form)
        return page, 422 if form.is_submitted() else 200
    with writing() as connection:
        if papers_of(connection, curriculum(), repair, signed_in().id) is None:
            abort(404)
        set_judgement(connection, repair, form.overall.data, form.remarks.data or "")
    return redirect(url_for("trainer.review", repair=repair), 303)


def _is_noted(papers: Papers, module: Module, item: ChecklistItem) -> bool:
    return (module.id, item.id) in papers.seen


def _module_or_404(papers: Papers, module_id: str) -> Module:
    found = papers.module(module_id)
    if found is None:
        abort(404)
    return found


def _item_or_404(papers: Papers, module_id: str, item_id: str) -> tuple[Module, ChecklistItem]:
    module = _module_or_404(papers, module_id)
    item = next((one for one in module.checklist if one.id == item_id), None)
    if item is None:
        abort(404)
    return module, item


def _url(repair: str, module: Module, item: ChecklistItem) -> str:
    return url_for("trainer.watch_item", repair=repair, module=module.id, item=item.id)


def _url_after(repair: str, module: Module, item: ChecklistItem) -> str:
    place = module.checklist.index(item) + 1
    if place < len(module.checklist):
        return _url(repair, module, module.checklist[place])
    return url_for("trainer.watch_module", repair=repair, module=module.id)
