"""Viscosity that grows, and the time a front feels, against numerical integration by scipy."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from app.trade.errors import OutOfRange
from app.trade.viscosity import clock_time, fluid_time, growth_from_doubling, viscosity_after

times = st.floats(0, 20_000)
growths = st.floats(0, 1)


@given(st.floats(0.01, 10), st.floats(1, 600))
def test_after_the_doubling_time_the_viscosity_has_doubled(
    viscosity: float, doubling: float
) -> None:
    grown = viscosity_after(viscosity, doubling * 60, growth_from_doubling(doubling))
    assert grown == pytest.approx(2 * viscosity, rel=1e-12)


@given(st.floats(1, 3600), st.floats(1e-6, 0.2))
def test_fluid_time_is_the_integral_of_the_fluidity(time_s: float, growth: float) -> None:
    # ∫ μ0/μ dt with the law itself under the integral, by scipy's quad.
    integral, _ = quad(lambda t: 1 / viscosity_after(1, t, growth), 0, time_s, epsrel=1e-11)
    assert fluid_time(time_s, growth) == pytest.approx(integral, rel=1e-9)


@given(times)
def test_without_growth_it_is_the_clock(time_s: float) -> None:
    assert fluid_time(time_s, 0) == time_s
    assert fluid_time(time_s, 1e-12) == pytest.approx(time_s, rel=1e-6)


@given(times, growths)
def test_growth_never_gives_a_front_more_time(time_s: float, growth: float) -> None:
    assert fluid_time(time_s, growth) <= time_s


@given(st.floats(0.1, 3600), st.floats(0, 0.1))
def test_clock_time_undoes_fluid_time(time_s: float, growth: float) -> None:
    assert clock_time(fluid_time(time_s, growth), growth) == pytest.approx(time_s, rel=1e-9)


def test_a_fluid_time_that_growth_never_gives_has_no_clock_time() -> None:
    # The whole integral to infinity is 1/k: 0.1 a minute gives 600 s and no more.
    total, _ = quad(lambda t: math.exp(-0.1 * t / 60), 0, math.inf)
    assert total == pytest.approx(600)
    assert clock_time(599.999, 0.1) is not None
    assert clock_time(600, 0.1) is None


def test_shrinking_viscosity_and_a_result_too_large_to_hold_are_refused() -> None:
    with pytest.raises(OutOfRange, match=r"growth_per_min is -0\.1"):
        viscosity_after(0.3, 60, -0.1)
    with pytest.raises(OutOfRange, match="growth_per_min is 10"):
        viscosity_after(0.3, 100_000, 10)
