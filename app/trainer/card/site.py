"""Shutdown, solvent and dust on the job card. No Flask here."""

from app.trade.dust import respirator_for_grinding
from app.trade.dust_collector import collector_airflow
from app.trade.pump import purge_volume
from app.trade.solvent import flush_solvent, solvent_properties
from app.trade.vapour import lel_share, vapour_ppm
from app.trainer.card.line import Line, sources_of, worked
from app.trainer.card.plan import Plan

ML_IN_M3 = 1_000_000
SIDES = 2  # A and B


def shutdown_lines(plan: Plan) -> list[Line]:
    """What the hoses hold, the flush, and the vapour at worst: all of the solvent in the air."""
    hose = {"hose_diameter_mm": plan.hose_diameter_mm, "hose_length_mm": plan.hose_length_mm}
    both = ("purge", "volume", ("purge_volume",), hose)
    flush = sources_of("flush_solvent")
    return [
        worked(*both, lambda bore, length: purge_volume(bore, length, hoses=SIDES)),
        Line("flush_each", flush_solvent(1), "volume", flush),
        Line("flush", flush_solvent(SIDES), "volume", flush),
        *_vapour(plan),
    ]


def _vapour(plan: Plan) -> list[Line]:
    if plan.solvent == "other":  # its own data sheet gives what is needed
        return [Line("vapour", None, "concentration", missing=("solvent_sheet",))]
    given = {"solvent": plan.solvent, "space_ml": plan.space_ml}
    names = ("vapour_ppm", "solvent_properties")
    vapour = worked("vapour", "concentration", names, given, _worst_ppm)
    if vapour.is_open:
        return [vapour]
    share = lel_share(vapour.number, solvent_properties(plan.solvent).lel_low_ppm)
    return [vapour, Line("vapour_share", share, "share", sources_of("lel_share", "lel_check"))]


def _worst_ppm(solvent: str, space_ml: float) -> float:
    known = solvent_properties(solvent)
    liquid = (flush_solvent(SIDES), known.density_g_per_ml, known.molar_mass_g_per_mol)
    return vapour_ppm(*liquid, space_ml / ML_IN_M3)


def dust_lines(plan: Plan) -> list[Line]:
    """The respirator for grinding and the collector's airflow; none when nothing is ground."""
    if plan.grinding == "none":
        return []
    table = {
        "grinding": plan.grinding,
        "grinding_min": plan.grinding_min,
        "controls": plan.controls,
    }
    wheel = {"wheel_mm": plan.wheel_mm}
    return [
        worked("respirator", "", ("respirator_for_grinding",), table, _respirator),
        worked("collector", "airflow", ("collector_airflow",), wheel, collector_airflow),
    ]


def _respirator(place: str, minutes: float, controls: str) -> str:
    return respirator_for_grinding(place == "indoors", minutes / 60, controls == "yes").answer
