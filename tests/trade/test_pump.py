"""The pump's hold and its purge."""

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.errors import OutOfRange
from app.trade.pump import hose_volume, pressure_hold, purge_check, purge_volume

UNITS = pint.UnitRegistry()


def mpa(psi: float) -> float:
    return float(UNITS.Quantity(psi, "psi").to("MPa").magnitude)


@pytest.mark.parametrize(("end_psi", "is_within"), [(160, True), (150, True), (149.9, False)])
def test_up_to_160_psi_and_not_below_150_after_three_minutes(
    end_psi: float, is_within: bool
) -> None:
    # The example of older US state special provisions (trade-facts §3, from memory).
    limits = pressure_hold(mpa(160), mpa(end_psi), 3, least_mpa=mpa(150), least_minutes=3)
    assert limits.is_within is is_within
    assert limits.unit == "mpa"


def test_a_wait_cut_short_with_the_pressure_still_standing_proves_nothing() -> None:
    with pytest.raises(OutOfRange, match="minutes is 2 min") as refusal:
        pressure_hold(1.1, 1.1, 2, least_mpa=1.03, least_minutes=3)
    assert (refusal.value.name, refusal.value.low) == ("minutes", 3)


def test_a_wait_cut_short_because_the_pressure_had_gone_is_a_failed_check() -> None:
    assert not pressure_hold(1.1, 0.5, 1, least_mpa=1.03, least_minutes=3).is_within


def test_a_pump_that_never_came_up_to_the_least_pressure_was_not_checked() -> None:
    with pytest.raises(OutOfRange, match=r"start_mpa is 0\.9"):
        pressure_hold(0.9, 0.9, 3, least_mpa=1.03, least_minutes=3)


def test_a_pressure_that_rises_while_the_pump_stands_is_no_hold() -> None:
    assert not pressure_hold(1.1, 1.2, 3, least_mpa=1.03, least_minutes=3).is_within


@given(
    st.floats(1, 100), st.floats(1, 200_000), st.integers(1, 4), st.floats(1, 10), st.floats(1, 2)
)
def test_a_purge_is_so_many_cylinders_by_pint(
    bore: float, length: float, hoses: int, times: float, factor: float
) -> None:
    # Geometry of a cylinder, with pint carrying the units.
    radius = UNITS.Quantity(bore, "mm") / 2
    cylinder = (3.141592653589793 * radius**2 * UNITS.Quantity(length, "mm")).to("mL").magnitude
    assert hose_volume(bore, length) == pytest.approx(cylinder, rel=1e-12)
    assert purge_volume(bore, length, hoses, times) == pytest.approx(cylinder * hoses * times)
    assert purge_volume(min(bore * factor, 100), length) >= purge_volume(bore, length)


def test_two_hoses_of_three_eighths_inch_and_50_ft_hold_over_half_a_gallon() -> None:
    # By hand: π/4 · 0.375² · 600 in³ · 2 = 132.5 in³; 231 in³ to the US gallon: 0.574 gal.
    gallons = UNITS.Quantity(purge_volume(9.525, 15_240), "mL").to("gallon").magnitude
    assert gallons == pytest.approx(132.536 / 231, rel=1e-4)


def test_a_purge_below_what_the_hoses_hold_is_out_of_limits() -> None:
    need = purge_volume(10, 15_000)
    assert purge_check(need, 10, 15_000).is_within
    assert not purge_check(need - 1, 10, 15_000).is_within
    assert not purge_check(need, 10, 15_000, times=2).is_within


@pytest.mark.parametrize("hoses", [0, 5, 1.5, True])
def test_a_count_of_hoses_that_cannot_be_is_refused(hoses: int) -> None:
    with pytest.raises(OutOfRange, match="hoses"):
        purge_volume(10, 15_000, hoses=hoses)
