"""The cubic law and the straight front, against worked examples and scipy's integrators."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad, solve_ivp

from app.trade.errors import OutOfRange
from app.trade.slot_flow import flow_per_breadth, front_speed, reach, time_to_reach
from app.trade.viscosity import viscosity_after

widths = st.floats(0.01, 5)
pressures = st.floats(0.01, 2)
viscosities = st.floats(0.05, 5)
times = st.floats(0, 7200)
growths = st.floats(0, 0.5)
roughnesses = st.floats(0.05, 1)
ROUNDING = 1 + 1e-12


def test_the_cubic_law() -> None:
    # trade-facts §7 example 1: 2.222·10⁻⁶ m²/s (Zimmerman & Bodvarsson 1996).
    assert flow_per_breadth(0.2, 0.2, 0.3, 200) == pytest.approx(2.222, abs=5e-4)


@given(widths, pressures, viscosities, st.floats(1, 5000))
def test_the_cubic_law_is_the_integral_of_the_velocity_across_the_slot(
    width: float, pressure: float, viscosity: float, length: float
) -> None:
    # Plane Poiseuille flow, u(y) = Δp/(2 μ L) · y (w − y), integrated by scipy.
    drive = pressure * 1e6 / (2 * viscosity * length)
    flow, _ = quad(lambda y: drive * y * (width - y), 0, width)
    assert flow_per_breadth(width, pressure, viscosity, length) == pytest.approx(flow, rel=1e-9)


def test_the_straight_front() -> None:
    # trade-facts §7 example 2.
    assert reach(0.2, 0.1, 0.3, 600) == pytest.approx(1155, abs=0.5)
    assert time_to_reach(200, 0.2, 0.1, 0.3) == pytest.approx(18.0, abs=0.05)
    assert time_to_reach(200, 0.1, 0.1, 0.3) == pytest.approx(72.0, abs=0.05)


@given(widths, pressures, viscosities, st.floats(1, 3600))
def test_the_front_moves_with_the_flow_behind_it(
    width: float, pressure: float, viscosity: float, time_s: float
) -> None:
    # dL/dt = q/w with q by the cubic law; time as the integral of w/q over the length, by quad.
    length = reach(width, pressure, viscosity, time_s)
    pace = 12 * viscosity / (width**2 * pressure * 1e6)
    integral, _ = quad(lambda x: pace * x, 0, length)
    assert time_s == pytest.approx(integral, rel=1e-9)


@pytest.mark.parametrize("growth", [0.0, 0.01, 0.1, 0.5])
def test_with_growing_viscosity_the_front_follows_the_differential_equation(growth: float) -> None:
    # d(L²)/dt = w² Δp / (6 μ(t)), stepped by scipy with the viscosity law itself.
    def pace(time_s: float, _: object) -> list[float]:
        return [0.2**2 * 0.1e6 / (6 * viscosity_after(0.3, time_s, growth))]

    steps = solve_ivp(pace, (0, 3600), [0.0], rtol=1e-11, atol=1e-9, t_eval=[600, 3600])
    for time_s, square in zip(steps.t, steps.y[0], strict=True):
        ours = reach(0.2, 0.1, 0.3, float(time_s), growth_per_min=growth)
        assert ours == pytest.approx(square**0.5, rel=1e-8)


@given(widths, pressures, viscosities, st.floats(1, 3600), roughnesses, st.floats(0, 0.05))
def test_time_undoes_reach(
    width: float, pressure: float, viscosity: float, time_s: float, rough: float, growth: float
) -> None:
    distance = reach(width, pressure, viscosity, time_s, rough, growth)
    if distance <= 100_000:
        back = time_to_reach(distance, width, pressure, viscosity, rough, growth)
        assert back == pytest.approx(time_s, rel=1e-8)


@given(widths, widths, pressures, viscosities, times, growths)
def test_no_reach_grows_when_the_width_shrinks(
    one: float, other: float, pressure: float, viscosity: float, time_s: float, growth: float
) -> None:
    narrow, wide = sorted((one, other))
    slow = reach(narrow, pressure, viscosity, time_s, growth_per_min=growth)
    assert slow <= reach(wide, pressure, viscosity, time_s, growth_per_min=growth) * ROUNDING


@given(widths, pressures, viscosities, times, growths)
def test_growth_on_never_reaches_further_than_off(
    width: float, pressure: float, viscosity: float, time_s: float, growth: float
) -> None:
    off = reach(width, pressure, viscosity, time_s)
    assert reach(width, pressure, viscosity, time_s, growth_per_min=growth) <= off * ROUNDING


@given(widths, pressures, viscosities, times, roughnesses)
def test_a_rough_crack_is_a_narrower_smooth_one(
    width: float, pressure: float, viscosity: float, time_s: float, rough: float
) -> None:
    # Hydraulic width: NRC 1996, Rock Fractures and Fluid Flow ch. 3.
    hydraulic = width * rough
    if hydraulic >= 0.01:
        assert reach(width, pressure, viscosity, time_s, rough) == pytest.approx(
            reach(hydraulic, pressure, viscosity, time_s)
        )


def test_a_front_that_growth_stops_for_good_says_how_far_it_would_get() -> None:
    # Fluid time ends at 600 s: √(2222.2 · 600) = 1154.7 mm, the reach of example 2 once more.
    with pytest.raises(OutOfRange, match="distance_mm is 1200") as refusal:
        time_to_reach(1200, 0.2, 0.1, 0.3, growth_per_min=0.1)
    assert refusal.value.high == pytest.approx(1154.7, abs=0.01)
    assert time_to_reach(1150, 0.2, 0.1, 0.3, growth_per_min=0.1) > time_to_reach(
        1150, 0.2, 0.1, 0.3
    )


def test_the_speed_of_example_two() -> None:
    # (200 mm)² in 18.0 s.
    assert front_speed(0.2, 0.1, 0.3) == pytest.approx(200**2 / 18.0, rel=1e-3)


@pytest.mark.parametrize(
    ("width", "pressure", "viscosity", "name"),
    [
        (0, 0.1, 0.3, "width_mm"),
        (0.2, 0, 0.3, "pressure_mpa"),
        (0.2, 0.1, 0, "viscosity_pa_s"),
        (-0.2, 0.1, 0.3, "width_mm"),
    ],
)
def test_a_slot_without_width_pressure_or_resin_is_refused(
    width: float, pressure: float, viscosity: float, name: str
) -> None:
    with pytest.raises(OutOfRange, match=name):
        reach(width, pressure, viscosity, 600)
