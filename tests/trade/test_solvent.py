"""Solvent: amounts, properties, flash point."""

import chemicals
import pint
import pytest

from app.trade.errors import NotAChoice, OutOfRange
from app.trade.solvent import flash_point_check, flush_solvent, solvent_properties

# Technical xylene is a mixture of three isomers.
CAS = {"xylene": ("95-47-6", "108-38-3", "106-42-3"), "toluene": ("108-88-3",)}
BOTH = pytest.mark.parametrize("name", sorted(CAS))


def test_a_pint_a_side() -> None:
    # Common practice; the conversion is pint's.
    pints = pint.UnitRegistry()("2 pint").to("mL").magnitude
    assert flush_solvent() == pytest.approx(pints, abs=1e-5)
    assert flush_solvent(sides=1, per_side_ml=500) == 500


@BOTH
def test_molar_mass_against_the_chemicals_library(name: str) -> None:
    for cas in CAS[name]:
        assert solvent_properties(name).molar_mass_g_per_mol == pytest.approx(
            chemicals.MW(cas), rel=6e-4
        )


@BOTH
def test_density_at_20_degrees_against_the_chemicals_library(name: str) -> None:
    from chemicals.volume import rho_data_VDI_PPDS_2

    found = []
    for cas in CAS[name]:
        row = rho_data_VDI_PPDS_2.loc[cas]
        theta = 1 - 293.15 / row["Tc"]
        powers = (0.35, 2 / 3, 1, 4 / 3)
        terms = zip((row["A"], row["B"], row["C"], row["D"]), powers, strict=True)
        found.append((row["rhoc"] + sum(c * theta**p for c, p in terms)) / 1000)
    ours = solvent_properties(name).density_g_per_ml
    assert min(found) - 0.005 <= ours <= max(found) + 0.005


@BOTH
def test_lower_explosive_limit_against_the_chemicals_library(name: str) -> None:
    ours = solvent_properties(name)
    theirs = [chemicals.LFL(CASRN=cas) * 1e6 for cas in CAS[name]]
    # Published tables differ by 0.1 % vapour; ours is NIOSH's.
    assert ours.lel_low_ppm == pytest.approx(min(theirs), abs=1100)
    assert ours.lel_high_ppm == pytest.approx(max(theirs), abs=1100)


@BOTH
def test_flash_point_against_the_chemicals_library(name: str) -> None:
    ours = solvent_properties(name)
    theirs = [chemicals.T_flash(cas) - 273.15 for cas in CAS[name]]
    # Closed-cup figures differ by two degrees between tables; ours is NIOSH's.
    assert ours.flash_point_low_c == pytest.approx(min(theirs), abs=2.1)
    assert ours.flash_point_high_c == pytest.approx(max(theirs), abs=2.1)


def test_the_shift_limit_of_xylene_against_the_chemicals_library() -> None:
    value, unit = chemicals.TWA("1330-20-7")
    assert (solvent_properties("xylene").shift_limit_ppm, "ppm") == (value, unit)


@pytest.mark.parametrize(
    ("temperature_c", "verdict"),
    [(12, "below"), (12.1, "too-close"), (26.9, "too-close"), (27, "can-ignite")],
)
def test_xylene_near_its_flash_point(temperature_c: float, verdict: str) -> None:
    # Flash point 27 °C: NIOSH Pocket Guide, lowest isomer. Margin 15 °C: EN 1127-1, from memory.
    found = flash_point_check(temperature_c, solvent_properties("xylene").flash_point_low_c)
    assert found.verdict == verdict
    assert found.is_within is (verdict == "below")


def test_toluene_can_be_lit_in_any_weather_a_crew_works_in() -> None:
    # Work at 10 °C or warmer (UFC 4-150-07); toluene's flash point is 4 °C (NIOSH).
    assert flash_point_check(10, solvent_properties("toluene").flash_point_low_c).verdict == (
        "can-ignite"
    )


def test_an_unknown_solvent_and_a_third_side_are_refused() -> None:
    with pytest.raises(NotAChoice, match="paint thinner"):
        solvent_properties("paint thinner")
    with pytest.raises(OutOfRange, match="sides is 3"):
        flush_solvent(sides=3)
