"""Readings against their limits: a data sheet's, a plan's, or a published rule's."""

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.conditions import eyewash_distance_check, temperature_check, within
from app.trade.errors import NotListed, OutOfRange


@pytest.mark.parametrize(
    ("reading_c", "is_within"), [(9.9, False), (10, True), (32, True), (32.1, False)]
)
def test_a_temperature_is_within_from_the_lowest_to_the_highest_of_the_data_sheet(
    reading_c: float, is_within: bool
) -> None:
    # 10 °C: UFC 4-150-07 CR-1, here as a data sheet's lowest.
    limits = temperature_check(reading_c, 10, 32)
    assert (limits.value, limits.low, limits.high, limits.unit) == (reading_c, 10, 32, "c")
    assert limits.is_within is is_within


def test_a_data_sheet_with_its_limits_swapped_is_refused_with_both_in_the_message() -> None:
    with pytest.raises(NotListed, match=r"\(32, 10\)"):
        temperature_check(20, 32, 10)


def test_a_reading_in_fahrenheit_taken_for_celsius_is_refused() -> None:
    with pytest.raises(OutOfRange, match="98"):
        temperature_check(98, 10, 32)


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_within_agrees_with_sorting(value: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert within(value, low, high).is_within == (sorted((low, value, high))[1] == value)


def test_one_limit_is_enough_and_none_is_refused() -> None:
    assert within(0.2, high=0.3).is_within
    assert not within(0.2, low=0.3).is_within
    with pytest.raises(NotListed, match="at least one limit"):
        within(0.2)


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_what_is_no_number_is_refused(value: float) -> None:
    with pytest.raises(OutOfRange):
        within(value, low=0)


def test_the_eyewash_may_be_fifty_five_feet_away_and_no_further() -> None:
    # ANSI/ISEA Z358.1: ten seconds, about 55 ft. The conversion is pint's.
    feet_mm = pint.UnitRegistry()("1 ft").to("mm").magnitude
    assert eyewash_distance_check(54.9 * feet_mm).is_within
    assert not eyewash_distance_check(55.1 * feet_mm).is_within
    assert eyewash_distance_check(0).high == pytest.approx(55 * feet_mm, rel=1e-12)
