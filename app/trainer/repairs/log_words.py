"""The port log ready for the page: each line, and what there is to remark on it."""

from dataclasses import dataclass

from flask_babel import gettext as _

from app.trainer.repairs.papers import Papers
from app.trainer.repairs.port_plan import Judged, judge_log
from app.trainer.words import shown


@dataclass(frozen=True, slots=True)
class LogLine:
    """One line in words; `remarks` are pairs (symbol, sentence), empty when all is well."""

    row: int
    port: int
    opened: str
    showed_at: str
    time: str
    pressure: str
    note: str
    remarks: tuple[tuple[str, str], ...]


def log_lines(papers: Papers) -> list[LogLine]:
    """Every line of the log in the order it was written."""
    judged = judge_log(papers.job, papers.resin, papers.ports)
    return [_line(papers, one) for one in judged]


def _line(papers: Papers, judged: Judged) -> LogLine:
    line = judged.line
    showed_at = judged.next_port if line.next_showed_at else None
    return LogLine(
        row=line.row,
        port=line.port,
        opened=line.opened_at,
        showed_at="" if showed_at is None else str(showed_at),
        time=line.next_showed_at,
        pressure="" if line.pressure_mpa is None else shown(line.pressure_mpa, "pressure"),
        note=line.note,
        remarks=tuple(_remarks(papers, judged)),
    )


def _remarks(papers: Papers, judged: Judged) -> list[tuple[str, str]]:
    found = []
    if judged.planned is not None:
        found.append(("warn", _("The plan had port %(port)s here.", port=judged.planned)))
    if judged.pressure == "may-leak":
        found.append(("warn", _("Ports of this kind have leaked at such a pressure.")))
    if judged.pressure == "leaks":
        found.append(("no", _("Ports of this kind leak at such a pressure.")))
    if judged.is_over_sheet:
        most = shown(papers.resin.values.max_pressure_mpa, "pressure")
        found.append(("no", _("Over the data sheet's %(most)s.", most=most)))
    if judged.is_over_sheet is None and judged.pressure:
        found.append(("why", _("The data sheet names no highest pressure.")))
    return found
