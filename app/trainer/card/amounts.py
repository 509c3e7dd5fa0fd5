"""Amounts of the job card: resin with its build-up, A and B, and the paste seal. No Flask here."""

from app.trade.losses import hold_up, samples_volume
from app.trade.mixing import split_by_volume, weigh_out
from app.trade.resin import resin_for_volume
from app.trade.seal import collar_volume, seal_needed, seal_volume
from app.trainer.card.crack import Crack
from app.trainer.card.line import Line, sources_of, worked
from app.trainer.card.plan import Plan
from app.workbook.resins import Sheet

Values = dict[str, float | None]


def _given(plan: Plan, *names: str) -> Values:
    return {name: plan.number(name) for name in names}


def resin_lines(crack: Crack, plan: Plan) -> list[Line]:
    """Crack, waste, mixer and tube, samples, and the total; "so far" while one of them is open."""
    parts = (_waste(crack, plan), _hold_up(plan), _samples(plan))
    shares = (plan.waste or 0, parts[1].value or 0, parts[2].value or 0)
    total = resin_for_volume(crack.net_ml, *shares).total_ml
    is_open = any(line.is_open for line in parts)
    return [
        Line("net", crack.net_ml, "volume", sources_of("crack_volume")),
        *parts,
        Line(
            "total_so_far" if is_open else "total", total, "volume", sources_of("resin_for_volume")
        ),
    ]


def _waste(crack: Crack, plan: Plan) -> Line:
    return worked(
        *("waste", "volume", ("resin_for_volume",)),
        {"waste": plan.waste},
        lambda share: resin_for_volume(crack.net_ml, share).waste_ml,
    )


def _hold_up(plan: Plan) -> Line:
    sizes = ("mixer_diameter_mm", "mixer_length_mm", "tube_diameter_mm", "tube_length_mm")
    return worked(
        *("hold_up", "volume", ("hold_up",)),
        _given(plan, *sizes, "mixers"),
        lambda *given: hold_up(*given[:4], mixers=int(given[4])),
    )


def _samples(plan: Plan) -> Line:
    return worked(
        *("samples", "volume", ("samples_volume",)),
        _given(plan, "ratio_tests", "per_test_ml", "physical_samples", "per_sample_ml"),
        lambda tests, each, kept, size: samples_volume(int(tests), each, int(kept), size),
    )


def parts_lines(total_ml: float, sheet: Sheet) -> list[Line]:
    """A and B of the total, by volume and by mass; open without the data sheet's values."""
    ratio = {name: sheet.value(name) for name in ("parts_a", "parts_b")}
    names = ("density_a_g_per_ml", "density_b_g_per_ml")
    weights = ratio | {name: sheet.value(name) for name in names}
    by_volume, by_mass = ("split_by_volume",), ("weigh_out",)
    return [
        worked(
            "a_volume", "volume", by_volume, ratio, lambda *r: split_by_volume(total_ml, *r).a_ml
        ),
        worked(
            "b_volume", "volume", by_volume, ratio, lambda *r: split_by_volume(total_ml, *r).b_ml
        ),
        worked("a_mass", "mass", by_mass, weights, lambda *w: weigh_out(total_ml, *w).a_g),
        worked("b_mass", "mass", by_mass, weights, lambda *w: weigh_out(total_ml, *w).b_g),
    ]


def seal_lines(crack: Crack, plan: Plan) -> list[Line]:
    """Paste in the strip and the collars, waste, the total and its two equal parts."""
    strip = worked(
        *("seal_strip", "volume", ("seal_volume",)),
        _given(plan, "seal_width_mm", "seal_thickness_mm") | {"seal_sides": plan.seal_sides},
        lambda width, thick, sides: seal_volume(crack.length_mm, width, thick, int(sides)),
    )
    collars = worked(
        *("seal_collars", "volume", ("collar_volume",)),
        _given(plan, "collar_outer_mm", "collar_foot_mm", "collar_height_mm"),
        lambda *ring: collar_volume(crack.ports, *ring),
    )
    sources = sources_of("seal_needed")
    if strip.value is None:
        return [strip, collars, Line("seal_total", None, "volume", sources, strip.missing)]
    needed = seal_needed(strip.value, collars.value or 0, plan.seal_waste or 0)
    given = {"seal_waste": plan.seal_waste}
    waste = worked("seal_waste", "volume", ("seal_needed",), given, lambda share: needed.waste_ml)
    total = "seal_so_far" if collars.is_open or waste.is_open else "seal_total"
    return [
        *(strip, collars, waste, Line(total, needed.total_ml, "volume", sources)),
        Line("seal_each", needed.a_ml, "volume", sources),
    ]
