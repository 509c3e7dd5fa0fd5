"""Axes: places of values, and ticks at values a crew reads off at a glance."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.drawing.scales import Scale, even_ticks, ladder


def test_a_log_scale_gives_each_tenfold_the_same_room():
    scale = Scale(0.1, 10, 100, 300, is_log=True)
    assert [scale.at(value) for value in (0.1, 1, 10)] == pytest.approx([100, 200, 300])


@given(st.floats(0.001, 1e5), st.floats(1.01, 1e4), st.floats(0, 1), st.booleans())
def test_every_value_of_a_scale_lies_between_its_ends(
    low: float, times: float, share: float, is_log: bool
):
    scale = Scale(low, low * times, 222, 30, is_log)
    value = min(scale.high, low + share * (scale.high - low))
    assert 30 - 1e-6 <= scale.at(value) <= 222 + 1e-6


@pytest.mark.parametrize("value", [0.99, 10.1])
def test_a_value_outside_is_refused_not_moved_to_the_edge(value: float):
    with pytest.raises(ValueError, match=str(value)):
        Scale(1, 10, 0, 100).at(value)


@pytest.mark.parametrize("ends", [(1, 1), (2, 1)])
def test_a_scale_needs_two_ends_in_order(ends: tuple[float, float]):
    with pytest.raises(ValueError):
        Scale(*ends, 0, 100)
    with pytest.raises(ValueError):
        Scale(0, 1, 0, 100, is_log=True)


def test_ticks_are_round_in_the_units_of_the_reader():
    # 1 mil is 0.0254 mm and 1 ft 304.8 mm exactly (NIST SP 811, appendix B).
    assert ladder("width", "us", 0.05, 0.6) == pytest.approx(
        [2 * 0.0254, 5 * 0.0254, 10 * 0.0254, 20 * 0.0254]
    )
    assert ladder("reach", "us", 300, 1000) == pytest.approx([304.8, 914.4])
    assert ladder("width", "metric", 0.05, 0.6) == (0.05, 0.1, 0.2, 0.5)


def test_even_ticks_in_fahrenheit_are_tens_of_fahrenheit():
    # 50, 60, 70, 80 °F by the definition °F = °C · 9/5 + 32.
    assert even_ticks(10, 31, "f") == pytest.approx([10, 140 / 9, 190 / 9, 240 / 9])


@given(st.floats(-50, 50), st.floats(0.5, 500))
def test_even_ticks_lie_inside_and_are_neither_bare_nor_crowded(low: float, span: float):
    ticks = even_ticks(low, low + span, "c")
    assert 1 <= len(ticks) <= 7
    assert low - 1e-6 <= ticks[0] <= ticks[-1] <= low + span + 1e-6
