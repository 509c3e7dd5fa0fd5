"""Cleaning solvent: how much to flush with, what two common ones are like, and the flash point."""

from dataclasses import dataclass
from typing import Final

from app.trade.calculator import Calculator, Input, Output, calculator

SIDES = Input("sides", "count", 1, 2, kind="count", default=2, says="A and B")
PER_SIDE = Input("per_side_ml", "ml", 1, 20_000, default=473.176473, says="one US pint")
LIQUID = Input("temperature_c", "c", -40, 100, says="of the liquid or the air, the warmer one")
FLASH_POINT = Input("flash_point_c", "c", -60, 200, says="on the safety data sheet")
MARGIN = Input("margin_c", "c", 0, 50, default=15, says="kept below the flash point")


@dataclass(frozen=True, slots=True)
class Solvent:
    """Published properties; the safety data sheet of what is in the can comes first."""

    name: str
    molar_mass_g_per_mol: float
    density_g_per_ml: float
    lel_low_ppm: float  # the lowest published figure, the one to work with
    lel_high_ppm: float
    flash_point_low_c: float  # the lowest published figure, the one to work with
    flash_point_high_c: float
    shift_limit_ppm: float  # NIOSH recommended limit, average over the shift
    short_limit_ppm: float  # NIOSH recommended limit, 15 min
    danger_ppm: float  # immediately dangerous to life or health


# NIOSH Pocket Guide; xylene spans its three isomers.
SOLVENTS: Final = {
    "xylene": Solvent("xylene", 106.16, 0.864, 9000, 11_000, 27, 32, 100, 150, 900),
    "toluene": Solvent("toluene", 92.1, 0.87, 11_000, 11_000, 4, 4, 100, 150, 500),
}
NAME = Input("name", "", None, None, kind="choice", choices=tuple(SOLVENTS))


@dataclass(frozen=True, slots=True)
class FlashPoint:
    """A temperature against a flash point."""

    temperature_c: float
    flash_point_c: float
    most_c: float  # the flash point less the margin
    verdict: str  # below | too-close | can-ignite
    is_within: bool  # below, with the margin kept


def flush_solvent(sides: int = 2, per_side_ml: float = 473.176473) -> float:
    """Solvent to have ready for flushing the pump at shutdown.

    Inputs:
        sides: count, A and B
        per_side_ml: mL; one US pint by common practice
    Result:
        volume_ml: mL
    Errors: OutOfRange outside the bounds of its inputs.
    Source: solvent-pint-a-side
    Example:
        >>> round(flush_solvent())
        946
    """
    return SIDES.check(sides) * PER_SIDE.check(per_side_ml)


def solvent_properties(name: str) -> Solvent:
    """Published properties of a common cleaning solvent, for comparison with its safety data sheet.

    Inputs:
        name: xylene or toluene
    Result:
        name: as given
        molar_mass_g_per_mol: g/mol
        density_g_per_ml: g/mL
        lel_low_ppm: lower explosive limit, lowest figure, ppm
        lel_high_ppm: lower explosive limit, highest figure, ppm
        flash_point_low_c: lowest figure, °C
        flash_point_high_c: highest figure, °C
        shift_limit_ppm: average over the shift, ppm
        short_limit_ppm: over 15 min, ppm
        danger_ppm: immediately dangerous to life or health, ppm
    Errors: NotAChoice for another name.
    Source: xylene-limits, xylene-properties, toluene-properties
    Example:
        >>> solvent_properties("xylene").lel_low_ppm
        9000
    """
    return SOLVENTS[NAME.check_choice(name)]


def flash_point_check(
    temperature_c: float, flash_point_c: float, margin_c: float = 15
) -> FlashPoint:
    """Warn when a solvent is warm enough to give off vapour that a spark can light.

    Spray and soaked rags can burn below the flash point too: "below" is no leave to use a flame.

    Inputs:
        temperature_c: of the liquid or the air, the warmer one, °C
        flash_point_c: on the safety data sheet, °C
        margin_c: kept below the flash point, °C; 15 for a mixture, from memory
    Result:
        temperature_c: as given, °C
        flash_point_c: as given, °C
        most_c: the flash point less the margin, °C
        verdict: below (margin kept), too-close, or can-ignite (at the flash point or above)
        is_within: the verdict is below
    Errors: OutOfRange outside the bounds of its inputs.
    Source: flash-point-margin
    Example:
        >>> flash_point_check(20, 27).verdict
        'too-close'
    """
    LIQUID.check(temperature_c)
    most_c = FLASH_POINT.check(flash_point_c) - MARGIN.check(margin_c)
    if temperature_c >= flash_point_c:
        verdict = "can-ignite"
    else:
        verdict = "below" if temperature_c <= most_c else "too-close"
    return FlashPoint(temperature_c, flash_point_c, most_c, verdict, verdict == "below")


_PROPERTIES = (
    *(Output("name", ""), Output("molar_mass_g_per_mol", "g_per_mol")),
    *(Output("density_g_per_ml", "g_per_ml"),),
    *(Output("lel_low_ppm", "ppm"), Output("lel_high_ppm", "ppm")),
    *(Output("flash_point_low_c", "c"), Output("flash_point_high_c", "c")),
    *(Output("shift_limit_ppm", "ppm"), Output("short_limit_ppm", "ppm")),
    *(Output("danger_ppm", "ppm"),),
)
_FLASH = (
    *(Output("temperature_c", "c"), Output("flash_point_c", "c"), Output("most_c", "c")),
    *(Output("verdict", ""), Output("is_within", "")),
)

CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        flush_solvent,
        "Solvent for the flush",
        (SIDES, PER_SIDE),
        (Output("volume_ml", "ml"),),
        ("solvent-pint-a-side",),
    ),
    calculator(
        solvent_properties,
        "What a solvent is like",
        (NAME,),
        _PROPERTIES,
        ("xylene-limits", "xylene-properties", "toluene-properties"),
    ),
    calculator(
        flash_point_check,
        "Flash point",
        (LIQUID, FLASH_POINT, MARGIN),
        _FLASH,
        ("flash-point-margin",),
    ),
)
