"""Does the front come to the next port before gel?"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.errors import OutOfRange
from app.trade.next_port import next_port_reach
from app.trade.radial_flow import radial_time
from app.trade.slot_flow import time_to_reach

spacings = st.floats(20, 500)
widths = st.floats(0.02, 1)
growths = st.floats(0, 0.2)
ORDER = {"not-before-gel": 0, "in-doubt": 1, "reached": 2}


def test_example_two_as_a_question_about_ports() -> None:
    # trade-facts §7 example 2: the straight front is at 200 mm after 18.0 s, at 0.1 mm after 72.0.
    found = next_port_reach(200, 0.2, 0.1, 0.3, 30, port_radius_mm=3)
    assert found.straight_time_min is not None
    assert found.straight_time_min * 60 == pytest.approx(18.0, abs=0.05)
    half = next_port_reach(200, 0.1, 0.1, 0.3, 30, port_radius_mm=3)
    assert half.straight_time_min is not None
    assert half.straight_time_min * 60 == pytest.approx(72.0, abs=0.05)
    assert (found.verdict, half.verdict) == ("reached", "reached")


@pytest.mark.parametrize(
    ("gel_min", "verdict"),
    [
        # By hand: w 0.05 mm, 0.1 MPa, 0.5 Pa·s give 83.33 mm²/s; 150 mm straight 22,500 / 83.33
        # = 270 s; round from 3 mm: 22,500 · 3.912 − 11,245.5 = 76,775 / 83.33 = 921 s.
        (4, "not-before-gel"),
        (5, "in-doubt"),
        (15, "in-doubt"),
        (16, "reached"),
    ],
)
def test_the_warning_by_gel_time(gel_min: float, verdict: str) -> None:
    found = next_port_reach(150, 0.05, 0.1, 0.5, gel_min, port_radius_mm=3)
    assert found.verdict == verdict
    assert found.is_within is (verdict == "reached")


def test_where_growth_stops_the_front_there_is_no_time_to_show() -> None:
    # 1/k = 100 s of fluid time, less than the 270 s and 921 s above.
    found = next_port_reach(150, 0.05, 0.1, 0.5, 600, 3, growth_per_min=0.6)
    assert (found.straight_time_min, found.radial_time_min) == (None, None)
    assert found.verdict == "not-before-gel"


@given(spacings, widths, st.floats(1, 120))
def test_the_verdict_and_the_times_tell_the_same_story(
    spacing: float, width: float, gel_min: float
) -> None:
    found = next_port_reach(spacing, width, 0.2, 0.4, gel_min, port_radius_mm=3)
    straight = time_to_reach(spacing, width, 0.2, 0.4) / 60
    radial = radial_time(spacing, 3, width, 0.2, 0.4) / 60
    assert found.straight_time_min == pytest.approx(straight)
    assert found.radial_time_min == pytest.approx(radial)
    if all(abs(time - gel_min) > 1e-6 * gel_min for time in (straight, radial)):
        assert ORDER[found.verdict] == (straight < gel_min) + (radial < gel_min)


@given(spacings, widths, widths, growths)
def test_a_narrower_crack_never_gets_a_better_verdict(
    spacing: float, one: float, other: float, growth: float
) -> None:
    narrow, wide = sorted((one, other))
    asked = (0.2, 0.4, 45, 3, 1, growth)
    worse, better = (next_port_reach(spacing, width, *asked) for width in (narrow, wide))
    assert ORDER[worse.verdict] <= ORDER[better.verdict]


@given(spacings, widths, growths)
def test_growth_on_never_gets_a_better_verdict_than_off(
    spacing: float, width: float, growth: float
) -> None:
    off = next_port_reach(spacing, width, 0.2, 0.4, 45, 3)
    grown = next_port_reach(spacing, width, 0.2, 0.4, 45, 3, growth_per_min=growth)
    assert ORDER[grown.verdict] <= ORDER[off.verdict]


def test_a_port_wider_than_the_spacing_is_refused() -> None:
    with pytest.raises(OutOfRange, match="spacing_mm is 20 mm"):
        next_port_reach(20, 0.2, 0.1, 0.3, 30, port_radius_mm=25)
