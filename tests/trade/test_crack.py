"""The volume of a crack, against the geometry of the trade's worked examples and numpy."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.crack import (
    DepthNotKnown,
    crack_volume,
    depth_to_fill,
    mean_width,
    measured_crack_volume,
    tapering_crack_volume,
    volume_in_units,
)
from app.trade.errors import NotListed, OutOfRange
from app.trade.units import INCH_MM

lengths = st.floats(1, 100_000)
depths = st.floats(1, 2_000)
widths = st.floats(0.02, 5)


def test_ten_metres_of_a_fine_crack():
    # Geometry: 0.3 mm × 200 mm × 10 m = 0.60 L.
    assert crack_volume(10_000, 200, 0.3) == pytest.approx(600, rel=1e-12)


@given(lengths, depths, widths, st.floats(1.1, 5))
def test_volume_scales_with_each_dimension(length, depth, width, factor):
    volume = crack_volume(length, depth, width)
    for scaled in (
        crack_volume(length * factor, depth, width),
        crack_volume(length, depth * factor, width),
        crack_volume(length, depth, width * factor),
    ):
        assert scaled == pytest.approx(volume * factor, rel=1e-12)


@given(st.floats(1, 300), st.floats(1, 40), st.floats(2, 150))
def test_both_unit_systems_agree(feet, inches, mils):
    # In US units by itself: cubic inches, and one US fluid ounce is 231/128 in³ (NIST SP 811).
    ounces = feet * 12 * inches * mils / 1000 / (231 / 128)
    inch = float(INCH_MM)
    volume = crack_volume(feet * 12 * inch, inches * inch, mils * inch / 1000)
    assert volume_in_units(volume).floz == pytest.approx(ounces, rel=1e-12)


@given(lengths, depths, widths)
def test_a_taper_to_the_same_width_is_no_taper(length, depth, width):
    assert tapering_crack_volume(length, depth, width, width) == pytest.approx(
        crack_volume(length, depth, width), rel=1e-12
    )


def test_a_crack_that_closes_holds_half():
    assert tapering_crack_volume(1000, 100, 0.4, 0) == pytest.approx(20)


@given(st.lists(st.tuples(st.floats(1, 500), st.floats(0, 5)), min_size=2, max_size=12))
def test_several_widths_are_summed_by_trapezoids(stretches):
    places = np.cumsum([step for step, _ in stretches]).tolist()
    gauged = [width for _, width in stretches]
    # numpy.trapezoid is the reference.
    expected = np.trapezoid(gauged, places) / (places[-1] - places[0])
    assert mean_width(places, gauged) == pytest.approx(expected, rel=1e-9, abs=1e-12)


def test_several_equal_widths_are_a_plain_crack():
    volume = measured_crack_volume([0, 500, 2000], [0.3, 0.3, 0.3], 150)
    assert volume == pytest.approx(crack_volume(2000, 150, 0.3))


def test_gauge_points_and_widths_have_to_match():
    with pytest.raises(NotListed, match="3 widths needed"):
        mean_width([0, 1, 2], [0.1, 0.2])
    with pytest.raises(NotListed, match="beyond the one before"):
        mean_width([0, 5, 5], [0.1, 0.2, 0.3])
    with pytest.raises(NotListed, match="at least 2"):
        mean_width([0], [0.1])


def test_a_full_crack_is_as_deep_as_the_member_and_a_one_sided_one_is_measured():
    assert depth_to_fill("full", 150) == 150
    assert depth_to_fill("one-sided", 150, 60) == 60
    with pytest.raises(DepthNotKnown, match="How deep"):
        depth_to_fill("one-sided", 150)
    with pytest.raises(OutOfRange, match="160"):
        depth_to_fill("one-sided", 150, 160)
