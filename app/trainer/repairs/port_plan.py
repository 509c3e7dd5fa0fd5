"""The port log beside the plan: the order of injection, and each pressure's verdict. No Flask."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.trade.errors import Refusal
from app.trade.injection_order import injection_order
from app.trade.port_pressure import port_pressure_check
from app.trade.spacing import port_positions
from app.workbook.jobs import Job
from app.workbook.port_logs import PortRow
from app.workbook.resins import Resin


@dataclass(frozen=True, slots=True)
class Judged:
    """One line of the log: the port the plan had here (None: as planned), and the pressure.

    `pressure`: "" not noted, normal, may-leak or leaks by the kind of port; `is_over_sheet`: None
    where the data sheet names no highest pressure.
    """

    line: PortRow
    next_port: int | None
    planned: int | None
    pressure: str
    is_over_sheet: bool | None

    @property
    def is_fine(self) -> bool:
        """Nothing to remark on this line."""
        return self.planned is None and self.pressure in ("", "normal") and not self.is_over_sheet


def planned_order(job: Job, starts_at: int | None = None) -> tuple[int, ...]:
    """Port numbers in the order they should be injected.

    A crack that does not run up a wall may be worked from either end: `starts_at` is the port the
    crew began with.
    """
    positions = port_positions(job.length_mm, job.spacing_mm)
    begins_last = job.orientation != "vertical" and starts_at == len(positions)
    start = "last-end" if begins_last else "first-end"
    return injection_order(positions, job.orientation, start)


def port_to_open(job: Job, lines: Sequence[PortRow]) -> int | None:
    """The port the plan has next after the last line of the log; None when it was the last port."""
    order = planned_order(job, lines[0].port if lines else None)
    return dict(pairwise(order)).get(lines[-1].port) if lines else order[0]


def judge_log(job: Job, resin: Resin, lines: Sequence[PortRow]) -> list[Judged]:
    """Each line of the log with what there is to say about it."""
    order = planned_order(job, lines[0].port if lines else None)
    following = dict(pairwise(order))
    judged: list[Judged] = []
    expected: int | None = order[0]
    last: int | None = None
    for line in lines:
        is_planned = line.port in (expected, last)
        judged.append(_judged(job, resin, line, following, None if is_planned else expected))
        last, expected = line.port, following.get(line.port)
    return judged


def _judged(
    job: Job, resin: Resin, line: PortRow, following: dict[int, int], planned: int | None
) -> Judged:
    most = resin.values.max_pressure_mpa
    pressure = line.pressure_mpa
    return Judged(
        line=line,
        next_port=following.get(line.port),
        planned=planned,
        pressure="" if pressure is None else _by_kind(job.port_kind, pressure),
        is_over_sheet=None if pressure is None or most is None else pressure > most,
    )


def _by_kind(kind: str, pressure_mpa: float) -> str:
    try:
        return port_pressure_check(kind, pressure_mpa).verdict
    except Refusal:
        return "leaks"  # beyond what the calculator takes, and far beyond the band
