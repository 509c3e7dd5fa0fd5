"""Solvent vapour: NIOSH's conversion, the ACGIH formula, the gas law."""

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from app.trade.errors import OutOfRange
from app.trade.solvent import solvent_properties
from app.trade.vapour import (
    concentration_mg_per_m3,
    concentration_ppm,
    dilution_air,
    lel_check,
    lel_share,
    vapour_ppm,
)

UNITS = pint.UnitRegistry()


def test_a_hundred_ppm_of_xylene() -> None:
    # trade-facts §7 example 14; NIOSH: 100 ppm = 434 mg/m³.
    assert round(concentration_mg_per_m3(100, 106.16)) == 434


def test_toluene_as_niosh_prints_it() -> None:
    # NIOSH Pocket Guide, toluene: 1 ppm = 3.77 mg/m³.
    molar_mass = solvent_properties("toluene").molar_mass_g_per_mol
    assert round(concentration_mg_per_m3(1, molar_mass), 2) == 3.77


def test_a_tenth_of_a_lower_explosive_limit_of_nine_tenths_of_a_percent() -> None:
    # trade-facts §7 example 14: 900 ppm.
    assert lel_check(0, 9000).high == pytest.approx(900)
    assert lel_share(900, 9000) == pytest.approx(0.1)
    assert lel_check(900, 9000).is_within
    assert not lel_check(901, 9000).is_within


@given(st.floats(0, 1e6), st.floats(10, 1000))
def test_ppm_and_mass_are_inverse(ppm: float, molar_mass: float) -> None:
    there = concentration_mg_per_m3(ppm, molar_mass)
    assert concentration_ppm(there, molar_mass) == pytest.approx(ppm, rel=1e-12)


def test_the_worst_case_agrees_with_the_gas_law() -> None:
    # Ideal gas at 25 °C and one atmosphere with scipy's constants; NIOSH rounds to 24.45 L/mol.
    moles = 946 * 0.864 / 106.16
    volume_m3 = moles * constants.R * 298.15 / constants.atm
    expected = volume_m3 / 50 * 1e6
    assert vapour_ppm(946, 0.864, 106.16, 50) == pytest.approx(expected, rel=1e-3)


def test_a_flush_left_to_dry_in_a_small_pump_house_is_past_immediate_danger() -> None:
    # Two US pints of xylene in 50 m³: by hand 817 g, 16,347 mg/m³, 3,765 ppm; IDLH 900 ppm (NIOSH).
    xylene = solvent_properties("xylene")
    ppm = vapour_ppm(946, xylene.density_g_per_ml, xylene.molar_mass_g_per_mol, 50)
    assert round(ppm) == 3765
    assert ppm > xylene.danger_ppm


@pytest.mark.parametrize(("limit_ppm", "cfm"), [(100, 680), (50, 1360)])
def test_xylene_at_a_quarter_pint_an_hour(limit_ppm: float, cfm: float) -> None:
    # trade-facts §7 example 9; ACGIH formula in US units. pint turns the units.
    rate = UNITS("0.25 pint / hour").to("mL / hour").magnitude
    airflow = UNITS.Quantity(dilution_air(rate, 0.86, 106.2, limit_ppm, 5), "m ** 3 / hour")
    # 679.9: the sheet rounds to three figures.
    assert airflow.to("ft ** 3 / min").magnitude == pytest.approx(cfm, rel=5e-4)


def test_the_si_constant_is_a_molar_volume_at_seventy_fahrenheit() -> None:
    # One mole an hour at 1 ppm with no factor but the smallest K of 3, by the gas law.
    kelvin = UNITS.Quantity(70, "degF").to("kelvin").magnitude
    molar_volume_m3 = constants.R * kelvin / constants.atm
    airflow = dilution_air(
        evaporation_ml_per_h=100,
        density_g_per_ml=1,
        molar_mass_g_per_mol=100,
        limit_ppm=1,
        mixing_factor=3,
    )
    assert airflow == pytest.approx(3 * molar_volume_m3 * 1e6, rel=2e-3)


@given(st.floats(0, 1000), st.floats(3, 10), st.floats(3, 10))
def test_air_that_mixes_worse_needs_no_less_of_it(rate: float, one: float, other: float) -> None:
    good, bad = sorted((one, other))
    assert dilution_air(rate, 0.86, 106.2, 100, good) <= dilution_air(rate, 0.86, 106.2, 100, bad)


@pytest.mark.parametrize("mixing_factor", [2.9, 10.1])
def test_a_mixing_factor_outside_the_published_span_is_refused(mixing_factor: float) -> None:
    with pytest.raises(OutOfRange, match="mixing_factor"):
        dilution_air(100, 0.86, 106.2, 100, mixing_factor)
