"""The round front, against scipy's quadrature, its differential equation and Lambert's W."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp
from scipy.special import lambertw

from app.trade.errors import OutOfRange
from app.trade.radial_flow import radial_reach, radial_time
from app.trade.slot_flow import front_speed, reach
from app.trade.viscosity import viscosity_after

widths = st.floats(0.01, 5)
radii = st.floats(0.5, 20)
times = st.floats(0, 7200)
growths = st.floats(0, 0.5)
SLOT = (0.2, 0.1, 0.3)  # width, pressure and viscosity of trade-facts §7 example 2
ROUNDING = 1 + 1e-9


@given(radii, st.floats(1.001, 500))
def test_time_is_the_integral_of_the_cubic_law_over_the_radius(radius: float, ratio: float) -> None:
    # dt = 12 μ / (w² Δp) · r ln(r/r0) dr, by scipy's quad.
    pace = 12 * 0.3 / (0.2**2 * 0.1e6)
    distance = radius * ratio
    integral, _ = quad(
        lambda r: pace * r * math.log(r / radius), radius, distance, epsabs=0, epsrel=1e-10
    )
    assert radial_time(distance, radius, *SLOT) == pytest.approx(integral, rel=1e-8)


def test_the_formula_as_written() -> None:
    # t = (6 μ / (w² Δp)) · [r² ln(r/r0) − (r² − r0²)/2] with r 200 mm and r0 3 mm, by hand:
    # 6 · 0.3 / 4000 = 4.5e-4 s/mm²; 40,000 · 4.19971 − 19,995.5 = 147,992.7 mm²; 66.60 s.
    assert radial_time(200, 3, *SLOT) == pytest.approx(66.60, abs=0.005)


@given(radii, st.floats(1, 7200), growths)
def test_reach_against_lambert_w(radius: float, time_s: float, growth: float) -> None:
    # With u = 2 ln(r/r0) − 1 the front obeys u e^u = (2 s − 1)/e, s = S τ / r0².
    rate = growth / 60
    fluid = -math.expm1(-rate * time_s) / rate if rate * time_s > 1e-12 else time_s
    number = front_speed(*SLOT) * fluid / radius**2
    u = float(lambertw((2 * number - 1) / math.e).real)
    expected = radius * math.exp((u + 1) / 2)
    # Near the port's own edge W's branch point leaves about half of the digits.
    ours = radial_reach(time_s, radius, *SLOT, growth_per_min=growth)
    assert ours == pytest.approx(expected, rel=1e-7)


@pytest.mark.parametrize("growth", [0.01, 0.1])
def test_with_growing_viscosity_the_front_follows_the_differential_equation(growth: float) -> None:
    start_s = 1.0

    def pace(time_s: float, radius: list[float]) -> list[float]:
        viscosity = viscosity_after(0.3, time_s, growth)
        return [0.2**2 * 0.1e6 / (12 * viscosity * radius[0] * math.log(radius[0] / 3))]

    first = radial_reach(start_s, 3, *SLOT, growth_per_min=growth)
    steps = solve_ivp(pace, (start_s, 1800), [first], rtol=1e-10, atol=1e-10, t_eval=[60, 1800])
    for time_s, radius in zip(steps.t, steps.y[0], strict=True):
        ours = radial_reach(float(time_s), 3, *SLOT, growth_per_min=growth)
        assert ours == pytest.approx(radius, rel=1e-7)


@given(radii, st.floats(0.001, 7200), st.floats(0, 0.02))
def test_time_undoes_reach(radius: float, time_s: float, growth: float) -> None:
    distance = radial_reach(time_s, radius, *SLOT, growth_per_min=growth)
    back = radial_time(distance, radius, *SLOT, growth_per_min=growth)
    assert back == pytest.approx(time_s, rel=1e-6)


@given(widths, widths, radii, times, growths)
def test_no_reach_grows_when_the_width_shrinks(
    one: float, other: float, radius: float, time_s: float, growth: float
) -> None:
    narrow, wide = sorted((one, other))
    slow = radial_reach(time_s, radius, narrow, 0.1, 0.3, growth_per_min=growth)
    fast = radial_reach(time_s, radius, wide, 0.1, 0.3, growth_per_min=growth)
    assert slow <= fast * ROUNDING


@given(widths, radii, times, growths)
def test_growth_on_never_reaches_further_than_off(
    width: float, radius: float, time_s: float, growth: float
) -> None:
    off = radial_reach(time_s, radius, width, 0.1, 0.3)
    grown = radial_reach(time_s, radius, width, 0.1, 0.3, growth_per_min=growth)
    assert radius <= grown <= off * ROUNDING


def test_far_from_a_small_port_the_round_front_is_the_slower_one() -> None:
    # The bracket passes r² when ln(r/r0) > 3/2: beyond 4.5 port radii.
    assert radial_reach(600, 3, *SLOT) < reach(*SLOT, 600)


def test_a_distance_inside_the_port_and_one_never_reached_are_refused() -> None:
    with pytest.raises(OutOfRange, match="distance_mm is 2 mm"):
        radial_time(2, 3, *SLOT)
    with pytest.raises(OutOfRange, match="distance_mm is 1000") as refusal:
        radial_time(1000, 3, *SLOT, growth_per_min=0.1)
    # What is offered instead is where growth stops the front: all of 1/k = 600 s of fluid time.
    assert refusal.value.high == pytest.approx(radial_reach(600, 3, *SLOT), rel=1e-9)


def test_at_time_zero_the_front_stands_at_the_port() -> None:
    assert radial_reach(0, 3, *SLOT) == 3
    assert radial_time(3, 3, *SLOT) == 0
