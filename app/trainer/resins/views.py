"""Resins and the values of their product data sheets. HTTP only: parse, call, answer."""

from flask import abort, flash, redirect, render_template, url_for
from flask_babel import gettext as _
from werkzeug.wrappers import Response

from app.database import reading, writing
from app.ids import new_id
from app.trade.units import BASE_UNITS
from app.trainer.blueprint import Page, doer, trainer
from app.trainer.resins.forms import (
    ResinForm,
    SheetForm,
    refuse_crossed,
    sheet_values,
    with_lines,
)
from app.web.telling import tell
from app.workbook.resins import (
    VALUES,
    Resin,
    ResinNameTaken,
    Sheet,
    all_resins,
    fill_in,
    keep_resin,
    resin_by_id,
)


@trainer.get("/resins")
def resins() -> str:
    """Show every resin."""
    with reading() as connection:
        found = all_resins(connection)
    return render_template("trainer/resins.html", resins=found)


@trainer.route("/resins/new", methods=["GET", "POST"])
def new_resin() -> Response | Page:
    """Enter a product data sheet; a line it does not say stays open."""
    form = with_lines(ResinForm, VALUES)
    is_sent = form.is_submitted()
    if not form.validate_on_submit() or refuse_crossed(form, sheet_values(form, VALUES)):
        return render_template("trainer/resin-new.html", form=form, names=VALUES), (
            422 if is_sent else 200
        )
    who = doer()
    new = Resin(
        id=new_id(),
        name=form.name.data,
        sheet=form.sheet.data,
        values=Sheet(**sheet_values(form, VALUES)),
        is_invented=False,
        created_by=who.person_id,
        created_at=who.now,
    )
    try:
        with writing() as connection:
            keep_resin(connection, new)
    except ResinNameTaken as refusal:
        form.name.errors = [tell(refusal)]
        return render_template("trainer/resin-new.html", form=form, names=VALUES), 422
    flash(_("The resin is in the book."))
    return redirect(url_for("trainer.resin", resin=new.id), 303)


@trainer.route("/resins/<resin>", methods=["GET", "POST"])
def resin(resin: str) -> Response | Page:
    """Show a data sheet's values; fill in lines that are open. What is given stays."""
    found = _resin_or_404(resin)
    names = found.values.missing()
    form = with_lines(SheetForm, names)
    if not form.validate_on_submit():
        return _sheet(found, form, 422 if form.is_submitted() else 200)
    given = sheet_values(form, names)
    known = {name: given.get(name, found.values.value(name)) for name in VALUES}
    if refuse_crossed(form, known):
        return _sheet(found, form, 422)
    with writing() as connection:
        fill_in(connection, resin_by_id(connection, found.id) or found, given)
    flash(_("Saved."))
    return redirect(url_for("trainer.resin", resin=found.id), 303)


def _sheet(found: Resin, form: SheetForm, code: int) -> tuple[str, int]:
    lines = [(name, found.values.value(name), unit_of(name)) for name in VALUES]
    page = render_template(
        "trainer/resin.html", resin=found, lines=lines, form=form, names=found.values.missing()
    )
    return page, code


def unit_of(name: str) -> str:
    """The quantity of a line, as `shown` takes it."""
    ends = {
        "parts_a": "ratio",
        "parts_b": "ratio",
        "ratio_tolerance": "share",
        "density_a_g_per_ml": "density",
        "density_b_g_per_ml": "density",
        "viscosity_pa_s": "viscosity",
        "pot_life_min": "time",
        "gel_time_min": "time",
        "max_pressure_mpa": "pressure",
    }
    found = ends.get(name, "temperature")
    assert found in BASE_UNITS
    return found


def _resin_or_404(resin_id: str) -> Resin:
    with reading() as connection:
        found = resin_by_id(connection, resin_id)
    if found is None:
        abort(404)
    return found
