"""How much resin to have, and whether what was used is plausible."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.crack import volume_in_units
from app.trade.lengths import read_quantity
from app.trade.losses import hold_up, samples_volume
from app.trade.resin import resin_for_volume, resin_needed, used_against_computed


def mm(typed: str) -> float:
    return float(read_quantity(typed, "length").value)


def test_twelve_feet_of_crack_with_waste():
    # Geometry: 144 in × 8 in × 0.020 in × 1.15 / (231/128 in³ per US fl oz) = 14.6818.
    needed = resin_needed(mm("12 ft"), mm("8 in"), mm("0.020 in"), waste=0.15)
    assert volume_in_units(needed.total_ml).floz == pytest.approx(14.6818, abs=5e-5)
    assert volume_in_units(needed.net_ml).floz == pytest.approx(12.7668, abs=5e-5)


@given(st.floats(0, 1e5), st.floats(0, 1), st.floats(0, 1000), st.floats(0, 1000))
def test_the_build_up_adds_up(net, waste, held, samples):
    needed = resin_for_volume(net, waste, held, samples)
    parts = (needed.net_ml, needed.waste_ml, needed.hold_up_ml, needed.samples_ml)
    assert sum(parts) == pytest.approx(needed.total_ml)
    assert needed.total_ml >= needed.net_ml


def test_waste_counts_on_the_crack_and_not_on_the_samples():
    assert resin_for_volume(1000, waste=0.1, samples_ml=500).total_ml == pytest.approx(1600)


def test_what_stays_in_mixer_and_tube_is_two_cylinders():
    # Geometry: π/4·d²·L of each, the mixer's bore half taken up by its elements, two sets.
    expected = 2 * (math.pi * 5**2 * 200 * 0.5 + math.pi * 3**2 * 1500) / 1000
    assert hold_up(10, 200, 6, 1500, mixer_open=0.5, mixers=2) == pytest.approx(expected)


def test_samples_are_tests_and_keepsakes():
    assert samples_volume(3, 150, 2, 60) == 570


@pytest.mark.parametrize(
    ("used", "verdict", "within"),
    [
        (539.9, "under-filled", False),
        (540, "plausible", True),
        (780, "plausible", True),
        (780.1, "leaking", False),
    ],
)
def test_used_against_computed_keeps_to_the_projects_band(used, verdict, within):
    found = used_against_computed(used, 600, low=0.9, high=1.3)
    assert (found.verdict, found.is_within) == (verdict, within)


@given(st.floats(1, 1e5), st.floats(0, 1), st.floats(1, 5))
def test_the_ends_of_the_band_count_as_plausible(computed, low, high):
    for share in (low, high):
        assert used_against_computed(share * computed, computed, low, high).is_within
