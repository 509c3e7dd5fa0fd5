"""The port log and the batches of a repair while it is watched. HTTP only."""

from flask import abort, redirect, render_template, url_for
from werkzeug.wrappers import Response

from app.database import writing
from app.trainer.blueprint import Page, curriculum, papers_or_404, trainer
from app.trainer.numbers import decimal_text
from app.trainer.repairs.batches import batches, next_number
from app.trainer.repairs.forms import BatchForm, PortForm
from app.trainer.repairs.log_words import log_lines
from app.trainer.repairs.papers import Papers, papers_of
from app.trainer.repairs.port_plan import planned_order, port_to_open
from app.web.who import signed_in
from app.workbook.observations import BATCH, Typed, keep_measured
from app.workbook.port_logs import PortRow, drop_port_row, keep_port_row, next_row


@trainer.route("/repairs/<repair>/ports", methods=["GET", "POST"])
def ports(repair: str) -> Response | Page:
    """Show the port log beside the planned order; write a new line."""
    papers = papers_or_404(repair)
    form = PortForm()
    if not form.is_submitted():
        planned = port_to_open(papers.job, papers.ports)
        form.port.data = "" if planned is None else str(planned)
        return _log(papers, form, 200)
    if not form.validate():
        return _log(papers, form, 422)
    with writing() as connection:
        _still_open(connection, repair)
        keep_port_row(connection, repair, _line(form, next_row(connection, repair)))
    return redirect(url_for("trainer.ports", repair=repair), 303)


@trainer.route("/repairs/<repair>/ports/<int:row>", methods=["GET", "POST"])
def port_row(repair: str, row: int) -> Response | Page:
    """Change one line: most of all, note when resin showed at the next port."""
    papers = papers_or_404(repair)
    line = next((one for one in papers.ports if one.row == row), None)
    if line is None:
        abort(404)
    form = PortForm(port=str(line.port), pressure=line.pressure_typed, note=line.note)
    if not form.is_submitted():
        form.opened_at.process_formdata([line.opened_at])
        form.next_showed_at.process_formdata([line.next_showed_at])
        return _log(papers, form, 200, line)
    if not form.validate():
        return _log(papers, form, 422, line)
    with writing() as connection:
        _still_open(connection, repair)
        keep_port_row(connection, repair, _line(form, row))
    return redirect(url_for("trainer.ports", repair=repair), 303)


@trainer.post("/repairs/<repair>/ports/<int:row>/strike")
def strike_row(repair: str, row: int) -> Response:
    """Strike out a line."""
    with writing() as connection:
        _still_open(connection, repair)
        drop_port_row(connection, repair, row)
    return redirect(url_for("trainer.ports", repair=repair), 303)


def _line(form: PortForm, row: int) -> PortRow:
    pressure = form.pressure.quantity_data
    return PortRow(
        row=row,
        port=int(form.port.quantity_data),
        opened_at=form.opened_at.clock,
        next_showed_at=form.next_showed_at.clock,
        pressure_typed="" if pressure is None else form.pressure.data.strip(),
        pressure_mpa=None if pressure is None else float(pressure),
        note=form.note.data or "",
    )


def _log(papers: Papers, form: PortForm, code: int, line: PortRow | None = None) -> tuple[str, int]:
    starts_at = papers.ports[0].port if papers.ports else None
    page = render_template(
        "trainer/ports.html",
        papers=papers,
        form=form,
        line=line,
        lines=log_lines(papers),
        order=planned_order(papers.job, starts_at),
    )
    return page, code


@trainer.route("/repairs/<repair>/batches", methods=["GET", "POST"])
def batch_clock(repair: str) -> Response | Page:
    """Note when A met B; show by which clock time the batch must be out."""
    papers = papers_or_404(repair)
    form = BatchForm()
    if not form.validate_on_submit():
        page = render_template(
            "trainer/batches.html", papers=papers, form=form, batches=batches(papers)
        )
        return page, 422 if form.is_submitted() else 200
    mixed = form.mixed_at.data
    timed = {
        "mixed_at": Typed(form.mixed_at.clock, str(60 * mixed.hour + mixed.minute)),
        "resin_temperature": Typed(
            form.resin_temperature.data.strip(), decimal_text(form.resin_temperature.quantity_data)
        ),
    }
    with writing() as connection:
        current = _still_open(connection, repair)
        keep_measured(connection, repair, (BATCH, str(next_number(current))), timed)
    return redirect(url_for("trainer.batch_clock", repair=repair), 303)


@trainer.post("/repairs/<repair>/batches/<int:number>/strike")
def strike_batch(repair: str, number: int) -> Response:
    """Strike out a batch that was typed wrong."""
    with writing() as connection:
        _still_open(connection, repair)
        keep_measured(connection, repair, (BATCH, str(number)), {})
    return redirect(url_for("trainer.batch_clock", repair=repair), 303)


def _still_open(connection: object, repair: str) -> Papers:
    found = papers_of(connection, curriculum(), repair, signed_in().id)  # type: ignore[arg-type]
    if found is None:
        abort(404)
    return found
