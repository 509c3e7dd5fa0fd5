"""Solvent vapour: how much of it the air holds, how near it is to burning, how much air to move."""

from typing import Final

from app.trade.calculator import Calculator, Input, Output, calculator
from app.trade.conditions import limits_outputs
from app.trade.limits import Limits
from app.trade.units import UNITS

PPM = Input("ppm", "ppm", 0, 1e9)
MASS = Input("mg_per_m3", "mg_per_m3", 0, 1e10)
MOLAR_MASS = Input("molar_mass_g_per_mol", "g_per_mol", 10, 1000, says="of the solvent")
VOLUME = Input("volume_ml", "ml", 0, 100_000, says="of liquid solvent, all evaporated")
DENSITY = Input("density_g_per_ml", "g_per_ml", 0.4, 3, says="of the liquid solvent")
SPACE = Input("space_m3", "m3", 0.1, 100_000, says="of air in the closed space")
LEL = Input("lel_ppm", "ppm", 1000, 500_000, says="lower explosive limit; 1 % is 10,000 ppm")
ALLOWED = Input("allowed", "", 0.01, 1, default=0.1, says="share of the lower explosive limit")
EVAPORATION = Input("evaporation_ml_per_h", "ml_per_h", 0, 100_000, says="steady rate")
LIMIT = Input("limit_ppm", "ppm", 0.1, 10_000, says="exposure limit to stay under")
MIXING = Input("mixing_factor", "", 3, 10, says="3 air well mixed, 10 poorly")

# Litres that a mole of vapour takes up at 25 °C and one atmosphere, as NIOSH rounds it.
MOLAR_VOLUME_L: Final = 24.45
# The published US form is 403·10⁶ with cfm and US pints a minute; this is the same number for m³/h
# and mL/h. It amounts to 24.1 L for a mole: the form's own temperature is about 70 °F, not 25 °C.
US_CONSTANT: Final = 403e6
SI_CONSTANT: Final = US_CONSTANT * float(UNITS["cfm"].factor / (60 * UNITS["pt"].factor))


def concentration_mg_per_m3(ppm: float, molar_mass_g_per_mol: float) -> float:
    """A vapour's parts per million as mass in a cubic metre, at 25 °C.

    Inputs:
        ppm: by volume, ppm
        molar_mass_g_per_mol: g/mol
    Result:
        mg_per_m3: mg/m³
    Errors: OutOfRange outside the bounds of its inputs.
    Source: ppm-to-mass
    Example:
        >>> round(concentration_mg_per_m3(100, 106.16))
        434
    """
    return PPM.check(ppm) * MOLAR_MASS.check(molar_mass_g_per_mol) / MOLAR_VOLUME_L


def concentration_ppm(mg_per_m3: float, molar_mass_g_per_mol: float) -> float:
    """A vapour's mass in a cubic metre as parts per million, at 25 °C.

    Inputs:
        mg_per_m3: mg/m³
        molar_mass_g_per_mol: g/mol
    Result:
        ppm: by volume, ppm
    Errors: OutOfRange outside the bounds of its inputs.
    Source: ppm-to-mass
    Example:
        >>> round(concentration_ppm(434.2, 106.16))
        100
    """
    return MASS.check(mg_per_m3) * MOLAR_VOLUME_L / MOLAR_MASS.check(molar_mass_g_per_mol)


def vapour_ppm(
    volume_ml: float, density_g_per_ml: float, molar_mass_g_per_mol: float, space_m3: float
) -> float:
    """Vapour in a closed space at worst: everything evaporates, no air comes in, evenly spread.

    Near the spill and near the floor it is more than this until it has spread. A result of a
    million or more says that the space cannot even hold so much vapour.

    Inputs:
        volume_ml: of liquid solvent, mL
        density_g_per_ml: of the liquid, g/mL
        molar_mass_g_per_mol: g/mol
        space_m3: of air in the closed space, m³
    Result:
        ppm: by volume, ppm
    Errors: OutOfRange outside the bounds of its inputs.
    Source: ppm-to-mass
    Example:
        >>> round(vapour_ppm(946, 0.864, 106.16, 50))
        3765
    """
    mass_mg = VOLUME.check(volume_ml) * DENSITY.check(density_g_per_ml) * 1000
    return concentration_ppm(mass_mg / SPACE.check(space_m3), molar_mass_g_per_mol)


def lel_share(ppm: float, lel_ppm: float) -> float:
    """A vapour's concentration as a share of its lower explosive limit.

    Inputs:
        ppm: by volume, ppm
        lel_ppm: lower explosive limit, ppm; the lowest figure published
    Result:
        share: plain number; 1 can explode
    Errors: OutOfRange outside the bounds of its inputs.
    Source: xylene-properties, toluene-properties
    Example:
        >>> lel_share(900, 9000)
        0.1
    """
    return PPM.check(ppm) / LEL.check(lel_ppm)


def lel_check(ppm: float, lel_ppm: float, allowed: float = 0.1) -> Limits:
    """A vapour's concentration against an allowed share of its lower explosive limit.

    Inputs:
        ppm: by volume, ppm
        lel_ppm: lower explosive limit, ppm; the lowest figure published
        allowed: share of the lower explosive limit, 0.01 to 1
    Result: Limits in ppm with an upper limit only.
    Errors: OutOfRange outside the bounds of its inputs.
    Source: ten-percent-lel
    Example:
        >>> lel_check(3765, 9000).high
        900.0
    """
    return Limits(PPM.check(ppm), None, LEL.check(lel_ppm) * ALLOWED.check(allowed), "ppm")


def dilution_air(
    evaporation_ml_per_h: float,
    density_g_per_ml: float,
    molar_mass_g_per_mol: float,
    limit_ppm: float,
    mixing_factor: float,
) -> float:
    """Fresh air that keeps a steady rate of evaporation under a limit, in SI.

    Q = 24.1·10³ · SG · ER · K / (M · C), the published US form with its units turned. Only for
    vapour of low toxicity given off at a modest, steady rate. Capture at the source or a safer
    solvent comes first.

    Inputs:
        evaporation_ml_per_h: steady rate, mL of liquid an hour
        density_g_per_ml: of the liquid, g/mL
        molar_mass_g_per_mol: g/mol
        limit_ppm: exposure limit to stay under, ppm
        mixing_factor: K, 3 for air that mixes well to 10 for air that does not
    Result:
        airflow_m3_per_h: m³/h
    Errors: OutOfRange outside the bounds of its inputs.
    Source: dilution-air
    Example:
        >>> round(dilution_air(118.3, 0.86, 106.2, 100, 5))
        1155
    """
    EVAPORATION.check(evaporation_ml_per_h)
    DENSITY.check(density_g_per_ml)
    MOLAR_MASS.check(molar_mass_g_per_mol)
    moles_per_h = evaporation_ml_per_h * density_g_per_ml / molar_mass_g_per_mol
    return SI_CONSTANT * moles_per_h * MIXING.check(mixing_factor) / LIMIT.check(limit_ppm)


_PPM = (Output("ppm", "ppm"),)

CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        concentration_mg_per_m3,
        "Vapour from ppm to mass",
        (PPM, MOLAR_MASS),
        (Output("mg_per_m3", "mg_per_m3"),),
        ("ppm-to-mass",),
    ),
    calculator(
        concentration_ppm, "Vapour from mass to ppm", (MASS, MOLAR_MASS), _PPM, ("ppm-to-mass",)
    ),
    calculator(
        vapour_ppm,
        "Vapour in a closed space, at worst",
        (VOLUME, DENSITY, MOLAR_MASS, SPACE),
        _PPM,
        ("ppm-to-mass",),
    ),
    calculator(
        lel_share,
        "Share of the lower explosive limit",
        (PPM, LEL),
        (Output("share", ""),),
        ("xylene-properties", "toluene-properties"),
    ),
    calculator(
        lel_check,
        "Is the vapour far from burning",
        (PPM, LEL, ALLOWED),
        limits_outputs("ppm"),
        ("ten-percent-lel",),
    ),
    calculator(
        dilution_air,
        "Air to thin a vapour",
        (EVAPORATION, DENSITY, MOLAR_MASS, LIMIT, MIXING),
        (Output("airflow_m3_per_h", "m3_per_h"),),
        ("dilution-air",),
    ),
)
