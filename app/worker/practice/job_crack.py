"""A job's measured crack as a practice crack. What is not measured is assumed, and said. Pure.

A model, not the wall: a face that is sealed, a back that is sealed.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from app.trade.filling.crack import Crack
from app.trade.filling.parts import Roughness
from app.trade.filling.supply import Pump, Resin
from app.trade.viscosity import growth_from_doubling
from app.workbook.jobs import Job
from app.workbook.resins import Sheet
from app.worker.practice.measured import NOTHING_TYPED, measured

# What the model gets where nobody gave a value: invented figures, of the size that is common.
VISCOSITY_PA_S, GEL_MIN, LIMIT_MPA = 0.3, 60.0, 0.3
DOUBLING_MIN = 20.0
PRESSURE_PA, FLOW_M3_PER_S = 150_000.0, 2e-6
ROUGH_SHARE, ROUGH_PATCH_M = 0.2, 0.03
CELLS_A_GAP, MOST_COLUMNS = 8, 96
LEAST_ROWS, MOST_ROWS = 12, 28
SEED_DIGITS = 12


@dataclass(frozen=True, slots=True)
class JobCrack:
    """The crack, and by name what about it was assumed."""

    crack: Crack
    assumed: tuple[str, ...]
    length_mm: float  # of the stretch that is practised on
    count: int


def job_crack(
    job: Job,
    sheet: Sheet,
    spacing_mm: float,
    run_id: str,
    typed: Mapping[str, str] = NOTHING_TYPED,
) -> JobCrack:
    """A practice crack of the job's size with ports at a spacing, its roughness by the run's id.

    Inputs:
        job, sheet: as kept; lengths mm
        spacing_mm: largest gap between two ports, mm
        run_id: the run's id in hexadecimal with hyphens, the seed of the roughness
        typed: the job card's fields as they were typed
    Errors: OutOfRange for sizes that the model does not take
    """
    found = measured(job, typed, spacing_mm)
    assumed = [*found.said, "sealed", "thickening"]
    if job.port_kind == "drilled":
        assumed.append("surface-ports")
    limit_mpa = _given(sheet.max_pressure_mpa, LIMIT_MPA, "limit", assumed)
    columns = min(MOST_COLUMNS, math.ceil(CELLS_A_GAP * found.length_m / found.gap_m - 1e-9))
    rows = math.ceil(job.depth_mm / 1000 / (found.length_m / columns))
    crack = Crack(
        length_m=found.length_m,
        depth_m=job.depth_mm / 1000,
        widths=found.widths,
        ports=found.ports,
        branches=found.branches,
        resin=_resin(sheet, assumed),
        pump=Pump(min(PRESSURE_PA, limit_mpa * 5e5), FLOW_M3_PER_S),
        orientation=job.orientation,
        roughness=Roughness(ROUGH_SHARE, min(ROUGH_PATCH_M, found.gap_m / 2), _seed(run_id)),
        port_limit_pa=limit_mpa * 1e6,
        columns=columns,
        rows=min(MOST_ROWS, max(LEAST_ROWS, rows)),
    )
    return JobCrack(crack, tuple(assumed), found.length_m * 1000, len(found.ports))


def _resin(sheet: Sheet, assumed: list[str]) -> Resin:
    gel_min = _given(sheet.gel_time_min or sheet.pot_life_min, GEL_MIN, "gel", assumed)
    return Resin(
        _given(sheet.viscosity_pa_s, VISCOSITY_PA_S, "viscosity", assumed),
        growth_per_min=growth_from_doubling(DOUBLING_MIN * gel_min / GEL_MIN),
        gel_time_s=gel_min * 60,
    )


def _given(value: float | None, instead: float, name: str, assumed: list[str]) -> float:
    if value is not None:
        return value
    assumed.append(name)
    return instead


def _seed(run_id: str) -> int:
    return int(run_id.replace("-", "")[-SEED_DIGITS:], 16)
