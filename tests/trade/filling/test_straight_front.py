"""A straight front from a line source, against L = w √(Δp t / (6 μ)) and its relatives.

trade-facts §4 and §7 example 2 (the cubic law integrated; Zimmerman & Bodvarsson 1996). The last
cell's middle is where resin shows, half a cell before the end.
"""

from dataclasses import replace

import pytest
from scipy.integrate import quad

from app.trade.fill import Contact, Filling, Port, Pump, Resin, WidthAt, wait, watch
from app.trade.slot_flow import reach
from app.trade.viscosity import growth_from_doubling
from tests.trade.filling.strips import LINE, RESIN, first, pumping, shows_at

MIDDLE_OF_LAST_M = 0.995


def reach_m(filling: Filling, crack=LINE) -> float:
    return filling.behind.in_crack_m3 / (crack.depth_m * crack.widths[0].width_m)


@pytest.mark.parametrize("time_s", [1.0, 18.0, 72.0, 200.0, 449.0])
def test_the_front_is_where_the_closed_form_says(time_s: float) -> None:
    filling = pumping(LINE)
    filling.apply(wait(time_s))
    assert reach_m(filling) == pytest.approx(reach(0.2, 0.1, 0.3, time_s) / 1000, rel=0.01)


def test_whole_columns_are_filled_at_exactly_the_time_of_the_closed_form() -> None:
    # 200 mm is 20 columns: 18.0 s in trade-facts §7 example 2.
    filling = pumping(LINE)
    filling.apply(wait(18.0))
    assert reach_m(filling) == pytest.approx(0.2, rel=1e-12)


def test_resin_shows_at_the_far_end_when_the_front_gets_there() -> None:
    # t = 6 μ L² / (w² Δp) = 450 s · L².
    assert shows_at(LINE, 2) == pytest.approx(450 * MIDDLE_OF_LAST_M**2, rel=1e-4)


def test_half_the_width_takes_four_times_as_long() -> None:
    narrow = replace(LINE, widths=(WidthAt(0, 0.1e-3),))
    assert shows_at(narrow, 2) == pytest.approx(4 * shows_at(LINE, 2), rel=1e-6)


def test_a_grid_of_any_size_gives_the_same_front() -> None:
    for columns, rows in ((20, 1), (50, 3), (100, 20)):
        filling = pumping(LINE.with_grid(columns, rows))
        filling.apply(wait(18.0))
        assert reach_m(filling) == pytest.approx(0.2, rel=1e-9), (columns, rows)


@pytest.mark.parametrize("doubling_min", [1.0, 5.0, 30.0])
def test_thickening_resin_gets_as_far_as_the_closed_form_says_and_never_farther(
    doubling_min: float,
) -> None:
    # μ = μ0 e^(k t): viscosity-first-order; the front then follows ∫ dt/μ (Water 2018, 10(9), 1122:
    # leaving the growth out overestimates reach).
    growth = growth_from_doubling(doubling_min)
    thickening = pumping(replace(LINE, resin=Resin(0.3, growth_per_min=growth)))
    thin = pumping(LINE)
    for _ in range(6):
        thickening.apply(wait(60))
        thin.apply(wait(60))
        expected = reach(0.2, 0.1, 0.3, thin.time_s, growth_per_min=growth) / 1000
        assert reach_m(thickening) == pytest.approx(expected, rel=0.01)
        assert reach_m(thickening) <= reach_m(thin)


def test_resin_that_is_older_when_pumping_starts_begins_thicker() -> None:
    growth = growth_from_doubling(30)
    old = replace(LINE, resin=Resin(0.3, growth_per_min=growth, age_s=1800, gel_time_s=9000))
    thick = replace(LINE, resin=Resin(0.6, growth_per_min=growth, gel_time_s=9000))
    assert shows_at(old, 2) == pytest.approx(shows_at(thick, 2), rel=1e-6)


def test_gel_ends_it() -> None:
    filling = pumping(replace(LINE, resin=Resin(0.3, gel_time_s=100, age_s=40)))
    assert first(filling.apply(watch(1000)), "gel").at_s == 60
    stopped_at = reach_m(filling)
    assert filling.apply(wait(1000)) == ()
    assert (filling.time_s, reach_m(filling)) == (60, stopped_at)
    assert filling.seen.is_gelled
    assert filling.seen.flow_m3_per_s == 0


def test_a_pump_at_constant_flow_climbs_to_its_pressure_limit_and_stays_there() -> None:
    # L = Q t / (w b) and p = 12 μ Q L / (w³ b) until p is the limit, at L1; then at constant
    # pressure L² = L1² + w² p (t − t1) / (6 μ): cubic law.
    flow, limit = 1e-7, 100_000.0
    width, deep = 0.2e-3, 0.1
    turn_m = width**3 * deep * limit / (12 * RESIN.viscosity_pa_s * flow)
    turn_s = turn_m * width * deep / flow
    filling = pumping(replace(LINE, pump=Pump(limit, flow, 0)))
    filling.apply(wait(turn_s / 2))
    assert reach_m(filling) == pytest.approx(turn_m / 2, rel=1e-6)
    assert filling.seen.gauge_pa == pytest.approx(limit / 2, rel=0.05)
    assert filling.seen.flow_m3_per_s == pytest.approx(flow, rel=1e-5)
    event = first(filling.apply(watch(1000)), "pressure-limit")
    assert event.at_s == pytest.approx(turn_s, rel=0.05)
    assert event.value == limit
    filling.apply(wait(5 * turn_s - filling.time_s))
    end_m = (turn_m**2 + width**2 * limit * 4 * turn_s / (6 * RESIN.viscosity_pa_s)) ** 0.5
    assert reach_m(filling) == pytest.approx(end_m, rel=0.01)
    assert filling.seen.gauge_pa == limit


def test_a_width_that_changes_along_the_crack_is_felt_cell_by_cell() -> None:
    # The front pushes its flow through all the narrower or wider crack behind it:
    # Q = p / ∫ 12 μ / (w³ b) dx and dt = w b dx / Q, by quad from scipy.
    taper = replace(LINE, widths=(WidthAt(0, 0.3e-3), WidthAt(1.0, 0.1e-3)))

    def width(x: float) -> float:
        return 0.3e-3 - 0.2e-3 * x

    def pace(x: float) -> float:
        behind, _ = quad(lambda s: 12 * 0.3 / width(s) ** 3, 0, x)
        return width(x) * behind / 100_000

    expected, _ = quad(pace, 0, MIDDLE_OF_LAST_M)
    assert shows_at(taper, 2) == pytest.approx(expected, rel=0.01)


def test_nothing_flows_without_a_path() -> None:
    # A patch of touching faces across the whole depth: resin stops in front of it.
    blocked = replace(
        LINE, ports=(*LINE.ports, Port(0.395)), contacts=(Contact(0.4, 0.45, 0, 0.1),)
    )
    filling = pumping(blocked)
    events = filling.apply(watch(5000, "resin-at-port", 2))
    assert [event.number for event in events if event.kind == "resin-at-port"] == [3]
    assert filling.behind.in_crack_m3 == pytest.approx(0.4 * 0.1 * 0.2e-3, rel=1e-9)


def test_nothing_flows_before_a_valve_is_open() -> None:
    filling = Filling(LINE)
    assert filling.apply(wait(1000)) == ()
    assert filling.behind.used_m3 == 0
    assert filling.time_s == 1000
