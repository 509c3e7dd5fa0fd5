"""Capillary suction in a slot: Washburn 1921 in slot form."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants
from scipy.integrate import quad

from app.trade.capillary import capillary_front, capillary_rise
from app.trade.errors import OutOfRange
from app.trade.slot_flow import reach

widths = st.floats(0.01, 5)
tensions = st.floats(0.005, 0.1)
angles = st.floats(0, 89)


def test_suction_and_rise_in_a_tenth_of_a_millimetre() -> None:
    # trade-facts §7 example 3.
    found = capillary_rise(0.04, 30, 0.1, 1.1)
    assert round(found.suction_pa) == 693
    assert round(found.rise_mm) == 64


@given(tensions, angles, widths, st.floats(0.5, 3))
def test_the_column_weighs_what_the_suction_lifts(
    tension: float, angle: float, width: float, density: float
) -> None:
    found = capillary_rise(tension, angle, width, density)
    weight_pa = density * 1000 * constants.g * found.rise_mm / 1000
    assert weight_pa == pytest.approx(found.suction_pa, rel=1e-12)


@given(st.floats(0.02, 0.1), st.floats(0, 60), st.floats(0.02, 5), st.floats(0.05, 5))
def test_the_early_front_is_a_straight_front_driven_by_the_suction(
    tension: float, angle: float, width: float, viscosity: float
) -> None:
    # Two routes to one number: the cubic law at the suction's pressure, integrated by quad.
    suction_pa = capillary_rise(tension, angle, width, 1.1).suction_pa
    front = capillary_front(tension, angle, width, viscosity, 60).distance_mm
    pace = 12 * viscosity / (width**2 * suction_pa)
    integral, _ = quad(lambda x: pace * x, 0, front)
    assert integral == pytest.approx(60, rel=1e-9)
    if suction_pa >= 1000:
        assert front == pytest.approx(reach(width, suction_pa / 1e6, viscosity, 60), rel=1e-9)


def test_measured_cracks_reach_less_than_the_formula() -> None:
    # Yip et al. 2025: the formula overpredicts by 17 to 43 %.
    found = capillary_front(0.04, 30, 0.1, 0.3, 60)
    assert found.likely_high_mm * 1.17 == pytest.approx(found.distance_mm)
    assert found.likely_low_mm * 1.43 == pytest.approx(found.distance_mm)


@given(widths, widths, tensions, angles, st.floats(0, 3600))
def test_no_reach_grows_when_the_width_shrinks_but_the_rise_does(
    one: float, other: float, tension: float, angle: float, time_s: float
) -> None:
    narrow, wide = sorted((one, other))
    slow = capillary_front(tension, angle, narrow, 0.3, time_s).distance_mm
    fast = capillary_front(tension, angle, wide, 0.3, time_s).distance_mm
    assert slow <= fast * (1 + 1e-12)
    low = capillary_rise(tension, angle, wide, 1.1).rise_mm
    assert low <= capillary_rise(tension, angle, narrow, 1.1).rise_mm * (1 + 1e-12)


def test_a_liquid_that_does_not_wet_is_refused() -> None:
    with pytest.raises(OutOfRange, match="contact_angle_deg is 90"):
        capillary_rise(0.04, 90, 0.1, 1.1)
