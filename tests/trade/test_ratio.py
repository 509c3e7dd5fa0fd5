"""The ratio sample: tolerance, the long side, and the drift of a day.

The ±5 % of these checks is from memory of US project specifications and MoRTH §2803; it is a
default of ours, and the product data sheet's own tolerance comes first.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.errors import NotListed
from app.trade.ratio import ratio_check, ratio_check_by_mass, ratio_drift


@pytest.mark.parametrize(
    ("b_ml", "within"), [(47.4, False), (47.5, True), (50, True), (52.5, True), (52.6, False)]
)
def test_five_per_cent_on_b(b_ml, within):
    # Worked example: 2:1, ±5 % on B, A = 100 mL: 47.5–52.5 mL passes.
    check = ratio_check(100, b_ml, 2, 1)
    assert check.is_within is within
    assert check.b_low_ml == pytest.approx(47.5)
    assert check.b_high_ml == pytest.approx(52.5)
    assert check.next_step == ("go-on" if within else "stop-correct-repeat")


def test_it_says_which_side_is_long_and_by_how_much():
    b_long = ratio_check(100, 60, 2, 1)
    assert (b_long.long_side, b_long.long_by_ml) == ("B", pytest.approx(10))
    a_long = ratio_check(100, 40, 2, 1)
    # 40 mL of B go with 80 mL of A, so 20 mL of A are over.
    assert (a_long.long_side, a_long.long_by_ml) == ("A", pytest.approx(20))
    assert ratio_check(100, 50, 2, 1).long_side == ""


@given(st.floats(10, 100), st.floats(0.2, 10), st.floats(0.2, 10), st.floats(0, 0.3))
def test_a_sample_on_either_limit_passes(a_ml, parts_a, parts_b, tolerance):
    check = ratio_check(a_ml, a_ml * parts_b / parts_a, parts_a, parts_b, tolerance)
    for b_ml in (check.b_low_ml, check.b_target_ml, check.b_high_ml):
        assert ratio_check(a_ml, b_ml, parts_a, parts_b, tolerance).is_within


@given(st.floats(10, 500), st.floats(10, 500), st.floats(0.9, 2), st.floats(0.9, 2))
def test_weighing_says_the_same_as_measuring(a_ml, b_ml, density_a, density_b):
    measured = ratio_check(a_ml, b_ml, 2, 1)
    weighed = ratio_check_by_mass(a_ml * density_a, b_ml * density_b, 2, 1, density_a, density_b)
    assert weighed.deviation == pytest.approx(measured.deviation, abs=1e-9)


def test_a_day_that_drifts_fails_though_each_sample_passes():
    drift = ratio_drift([100, 100, 100], [48, 50, 52], 2, 1)
    assert drift.deviations == pytest.approx((-0.04, 0, 0.04))
    assert drift.change == pytest.approx(0.08)
    assert drift.towards == "B"
    assert not drift.is_within


def test_a_steady_day_passes():
    drift = ratio_drift([100, 102, 100], [50, 51, 50], 2, 1)
    assert (drift.towards, drift.is_within, drift.next_step) == ("", True, "go-on")


def test_one_bad_sample_spoils_the_day():
    assert not ratio_drift([100, 100, 100], [50, 60, 50], 2, 1).is_within


def test_a_day_needs_two_whole_samples():
    with pytest.raises(NotListed, match="at least 2"):
        ratio_drift([100], [50], 2, 1)
    with pytest.raises(NotListed, match="3 needed"):
        ratio_drift([100, 100, 100], [50, 50], 2, 1)
