"""Resin that leaves the crack again: open ports, pinholes, the back edge. And what the pump shows.

Steady flows are worked out by hand from resistances in series: 12 μ L / (w³ b) for a stretch of
crack (cubic law, trade-facts §4 and §7 example 1).
"""

from dataclasses import replace

import pytest

from app.trade.fill import (
    Back,
    Pinhole,
    Port,
    Pump,
    cap,
    close,
    move_to,
    patch,
    pinhole_conductance,
    pump,
    set_pressure,
    wait,
    watch,
)
from app.trade.port_pressure import LEAKS_FROM_TO_MPA
from tests.trade.filling.strips import LINE, first, off_balance, pumping

MU, W, B = 0.3, 0.2e-3, 0.1
PER_M = 12 * MU / (W**3 * B)  # Pa·s/m³ for each metre of crack


def test_steady_flow_through_a_full_crack_is_the_cubic_laws() -> None:
    # trade-facts §7 example 1: w 0.2 mm, Δp 0.2 MPa, μ 0.3 Pa·s, L 0.2 m: q = 2.222·10⁻⁶ m²/s.
    crack = replace(
        LINE,
        length_m=0.2,
        ports=(Port(0, drilled_m=0.1), Port(0.2, drilled_m=0.1)),
        pump=Pump(200_000, 1e-2, 0),
    )
    filling = pumping(crack)
    filling.apply(wait(60))
    before = filling.behind.out_of_ports_m3
    filling.apply(wait(100))
    flow = (filling.behind.out_of_ports_m3 - before) / 100
    assert flow / B == pytest.approx(2.222e-6, rel=1e-3)
    assert filling.seen.flow_m3_per_s == pytest.approx(flow, rel=1e-5)
    assert filling.seen.showing == (2,)


def test_a_leaking_back_takes_what_its_conductance_lets_through() -> None:
    # The last cell's back leaks: half a cell of crack, then 10⁻¹³ m² of leak for each metre.
    cell = 0.01
    leaking = replace(
        LINE, ports=(LINE.ports[0],), rows=1, back=Back("leaking", 1e-13, from_m=0.99, to_m=1.0)
    )
    filling = pumping(leaking)
    event = first(filling.apply(wait(1500)), "leak-at-back")
    assert not event.is_seen
    assert event.value == pytest.approx(0.995)
    before = filling.behind.out_of_back_m3
    filling.apply(wait(1000))
    through_cell = 12 * MU * (B / 2) / (W**3 * cell)
    through_leak = MU / (1e-13 * cell)
    expected = 100_000 / (PER_M * 0.995 + through_cell + through_leak)
    assert (filling.behind.out_of_back_m3 - before) / 1000 == pytest.approx(expected, rel=1e-6)
    assert abs(off_balance(filling)) < 1e-9


def test_an_open_back_keeps_running_and_a_sealed_one_does_not() -> None:
    used = {}
    for kind in ("sealed", "open"):
        filling = pumping(replace(LINE, ports=(LINE.ports[0],), back=Back(kind)))
        filling.apply(wait(2000))
        used[kind] = filling.behind.used_m3 / filling.behind.crack_m3
        assert abs(off_balance(filling)) < 1e-9
    assert used["sealed"] < 1 < used["open"]


def test_a_pinhole_shows_leaks_and_stops_when_it_is_sealed() -> None:
    hole = pinhole_conductance(0.001, 0.002)
    # π d⁴ / (128 L): Hagen–Poiseuille, by hand.
    assert hole == pytest.approx(3.14159265 * 1e-12 / 0.256, rel=1e-6)
    crack = replace(LINE, ports=(LINE.ports[0],), pinholes=(Pinhole(0.995, hole),), rows=1)
    filling = pumping(crack)
    event = first(filling.apply(watch(2000)), "leak-at-pinhole")
    assert (event.number, event.is_seen) == (1, True)
    assert filling.seen.leaking == (1,)
    filling.apply(wait(100))
    before = filling.behind.out_of_pinholes_m3
    filling.apply(wait(100))
    half_cell = 12 * MU * (B / 2) / (W**3 * 0.01)
    expected = 100_000 / (PER_M * 0.995 + half_cell + MU / hole)
    assert (filling.behind.out_of_pinholes_m3 - before) / 100 == pytest.approx(expected, rel=1e-6)
    filling.apply(close())
    filling.apply(patch(1))
    filling.apply(pump())
    before = filling.behind.out_of_pinholes_m3
    filling.apply(wait(100))
    assert filling.behind.out_of_pinholes_m3 == before
    assert filling.seen.leaking == ()


def test_a_port_left_open_lets_resin_run_back_out() -> None:
    # EM 1110-2-2002 §6-22c(5): cap the port, then move up.
    wall = replace(
        LINE, ports=(Port(0), Port(0.5), Port(1.0)), orientation="vertical", columns=50, rows=5
    )
    left_open, capped = pumping(wall), pumping(wall)
    for filling in (left_open, capped):
        filling.apply(watch(3600, "resin-at-port", 2))
    capped.apply(cap(1))
    for filling in (left_open, capped):
        filling.apply(move_to(2))
        filling.apply(pump())
        filling.apply(wait(60))
        assert abs(off_balance(filling)) < 1e-9
    assert capped.behind.out_of_ports_m3 == 0
    assert left_open.behind.out_of_ports_m3 > 0
    assert 1 in left_open.seen.showing


def test_a_port_over_its_limit_is_told() -> None:
    # EM 1110-2-2002 §6-22c(3)(a): surface ports leaked from 0.3 MPa on.
    limit_pa = LEAKS_FROM_TO_MPA["surface"][0] * 1e6
    assert LINE.port_limit_pa == limit_pa
    filling = pumping(LINE)
    assert filling.apply(wait(5)) == ()
    filling.apply(set_pressure(limit_pa + 1))
    event = first(filling.apply(wait(5)), "port-over-limit")
    assert (event.number, event.value) == (1, limit_pa + 1)
    assert filling.apply(wait(5)) == ()  # told once


def test_refusal_is_a_small_flow_and_no_proof_that_the_crack_is_full() -> None:
    # El Tani & Stille 2017, doi 10.1007/s00603-017-1237-8: flow fades but refusal proves nothing.
    narrow = replace(LINE, widths=(replace(LINE.widths[0], width_m=0.03e-3),))
    filling = pumping(replace(narrow, pump=Pump(100_000, 1e-2, refusal_m3_per_s=1e-9)))
    event = first(filling.apply(watch(3600)), "refusal")
    assert event.value < 1e-9
    assert filling.behind.filled_share < 0.5
    assert filling.seen.flow_m3_per_s > 0


def test_a_full_shut_crack_takes_nothing_and_holds_its_pressure() -> None:
    # EM 1110-2-2002 §6-22c(5): full if pressure can be held.
    filling = pumping(LINE)
    filling.apply(watch(3600, "resin-at-port", 2))
    filling.apply(wait(20))
    filling.apply(cap(2))
    filling.apply(wait(60))
    full = filling.behind
    assert full.filled_share == pytest.approx(1, abs=1e-6)
    filling.apply(wait(600))
    assert filling.behind.used_m3 == full.used_m3
    assert filling.seen.gauge_pa == 100_000
    filling.apply(close())
    filling.apply(wait(600))
    assert filling.seen.gauge_pa == 100_000
