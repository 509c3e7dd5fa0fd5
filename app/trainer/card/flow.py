"""Flow on the job card: the next port before gel, and the pressure and temperature. No Flask."""

from dataclasses import dataclass

from app.drawing.reach_plot import Drive
from app.trade.conditions import temperature_check, within
from app.trade.errors import Refusal
from app.trade.limits import Limits
from app.trade.next_port import NextPortReach, next_port_reach
from app.trade.port_pressure import port_pressure_check
from app.trade.pot_life import PotLifeBand
from app.trade.viscosity import growth_from_doubling
from app.trainer.card.crack import Crack
from app.trainer.card.line import Line, absent, sources_of, worked
from app.trainer.card.plan import Plan
from app.workbook.jobs import Job
from app.workbook.resins import Sheet


@dataclass(frozen=True, slots=True)
class Flow:
    """Can the resin reach the next port? `drive` is what the plot is drawn with.

    `limit`: what ends the time, gel_time or pot_life: the shorter of the two that are known.
    """

    lines: list[Line]
    next_port: NextPortReach | None = None
    drive: Drive | None = None
    limit: str = ""


def flow_of(crack: Crack, plan: Plan, sheet: Sheet, band: PotLifeBand | None) -> Flow:
    """Reach before gel, at the narrowest width gauged and over the widest gap between ports.

    The gel time on the sheet holds for the sheet's temperature. Where the short end of the pot
    life at the resin's own temperature is known and shorter, it is taken instead.
    """
    given = {
        "pressure_mpa": plan.pressure_mpa,
        "viscosity_pa_s": sheet.viscosity_pa_s,
        "gel_time_min": sheet.gel_time_min,
        "port_opening_mm": plan.port_opening_mm,
    }
    sources = sources_of("next_port_reach")
    if missing := absent(given):
        return Flow([Line("reach", None, "length", sources, missing)])
    is_short = band is not None and band.low_min < float(sheet.gel_time_min or 0)
    minutes = band.low_min if band is not None and is_short else sheet.gel_time_min
    try:
        drive = _drive(plan, *given.values(), minutes)
        found = next_port_reach(
            *(crack.largest_gap_mm, crack.narrowest_mm, drive.pressure_mpa, drive.viscosity_pa_s),
            *(drive.gel_time_min, drive.port_radius_mm),
            growth_per_min=drive.growth_per_min,
        )
    except Refusal as refusal:
        return Flow([Line("reach", None, "length", sources, refused=refusal)])
    limit = "pot_life" if is_short else "gel_time"
    return Flow(_lines(found, drive.gel_time_min, sources), found, drive, limit)


def _drive(plan: Plan, *given: float | None) -> Drive:
    pressure, viscosity, _gel, opening, minutes = (float(value or 0) for value in given)
    growth = growth_from_doubling(plan.doubling_min) if plan.doubling_min else 0
    return Drive(pressure, viscosity, minutes, opening / 2, growth)


def _lines(found: NextPortReach, minutes: float, sources: tuple[str, ...]) -> list[Line]:
    return [
        Line("time_limit", minutes, "time", sources_of("gel_time_gate")),
        Line("reach_straight", found.straight_reach_mm, "length", sources),
        Line("reach_round", found.radial_reach_mm, "length", sources),
        _arrival("arrives_straight", found.straight_time_min, sources),
        _arrival("arrives_round", found.radial_time_min, sources),
        Line("next_port", found.verdict, "", sources),
    ]


def _arrival(name: str, minutes: float | None, sources: tuple[str, ...]) -> Line:
    """When a front arrives; the word "never" where growing viscosity stops it first."""
    if minutes is None:
        return Line(name, "never", "", sources)
    return Line(name, minutes, "time", sources)


def check_lines(job: Job, plan: Plan, sheet: Sheet) -> list[Line]:
    """Pressure against the ports' kind and the sheet, temperature against the sheet, as words."""
    pressure = {"pressure_mpa": plan.pressure_mpa}
    warmth = {
        "resin_temperature_c": plan.resin_temperature_c,
        "min_temperature_c": sheet.min_temperature_c,
        "max_temperature_c": sheet.max_temperature_c,
    }
    return [
        worked(
            *("port_pressure", "", ("port_pressure_check",), pressure),
            lambda mpa: port_pressure_check(job.port_kind, mpa).verdict,
        ),
        worked(
            *("sheet_pressure", "", ("within",)),
            pressure | {"max_pressure_mpa": sheet.max_pressure_mpa},
            lambda mpa, most: _side(within(mpa, high=most)),
        ),
        worked(
            *("sheet_temperature", "", ("temperature_check",), warmth),
            lambda *degrees: _side(temperature_check(*degrees)),
        ),
    ]


def _side(limits: Limits) -> str:
    return "within" if limits.is_within else "outside"
