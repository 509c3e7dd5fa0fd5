"""A job's measured crack as a practice crack. What is not measured is assumed, and said. Pure.

A model, not the wall: one mean width, a face that is sealed, a back that is sealed.
"""

import math
from dataclasses import dataclass

from app.trade.filling.crack import Crack
from app.trade.filling.parts import Port, Roughness, WidthAt
from app.trade.filling.supply import Pump, Resin
from app.trade.spacing import port_positions
from app.trade.viscosity import growth_from_doubling
from app.workbook.jobs import Job
from app.workbook.resins import Sheet

MOST_PORTS = 12  # more rings than this do not fit a thumb on a phone
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


def job_crack(job: Job, sheet: Sheet, spacing_mm: float, run_id: str) -> JobCrack:
    """A practice crack of the job's size with ports at a spacing, its roughness by the run's id.

    Inputs:
        job, sheet: as kept; lengths mm
        spacing_mm: largest gap between two ports, mm
        run_id: the run's id in hexadecimal with hyphens, the seed of the roughness
    Errors: OutOfRange for sizes that the model does not take
    """
    places = port_positions(job.length_mm, spacing_mm)
    assumed = ["even-width", "sealed", "thickening"]
    if len(places) > MOST_PORTS:
        places = places[:MOST_PORTS]
        assumed.append("stretch")
    if job.port_kind == "drilled":
        assumed.append("surface-ports")
    length_mm, gap_mm = places[-1], places[1] - places[0]
    limit_mpa = _given(sheet.max_pressure_mpa, LIMIT_MPA, "limit", assumed)
    columns = min(MOST_COLUMNS, CELLS_A_GAP * (len(places) - 1))
    rows = math.ceil(job.depth_mm / (length_mm / columns))
    crack = Crack(
        length_m=length_mm / 1000,
        depth_m=job.depth_mm / 1000,
        widths=(WidthAt(0, job.width_mm / 1000),),
        ports=tuple(Port(place / 1000) for place in places),
        resin=_resin(sheet, assumed),
        pump=Pump(min(PRESSURE_PA, limit_mpa * 5e5), FLOW_M3_PER_S),
        orientation=job.orientation,
        roughness=Roughness(ROUGH_SHARE, min(ROUGH_PATCH_M, gap_mm / 2000), _seed(run_id)),
        port_limit_pa=limit_mpa * 1e6,
        columns=columns,
        rows=min(MOST_ROWS, max(LEAST_ROWS, rows)),
    )
    return JobCrack(crack, tuple(assumed), length_mm, len(places))


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
