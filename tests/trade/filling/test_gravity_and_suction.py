"""Gravity along the wall and capillary suction, against their closed forms.

Capillary rise h = 2 γ cos θ / (ρ g w) and early front L² = γ w cos θ t / (3 μ): Washburn 1921, slot
form; trade-facts §4 and §7 example 3. Gravity: the cubic law with the weight of the column.
"""

from dataclasses import replace
from math import log

import numpy as np
import pytest

from app.trade.capillary import GRAVITY_M_PER_S2, capillary_front, capillary_rise
from app.trade.fill import Port, Pump, Resin, WidthAt, cap, close, uncap, wait
from tests.trade.filling.strips import LINE, off_balance, pumping

RISING = replace(LINE, orientation="vertical", rows=4)
WEIGHT = 1100 * GRAVITY_M_PER_S2


def reach_m(filling, crack=LINE) -> float:
    return filling.behind.in_crack_m3 / (crack.depth_m * crack.widths[0].width_m)


@pytest.mark.parametrize("target_m", [0.3, 0.6, 0.8])
def test_a_rising_column_slows_as_its_weight_grows(target_m: float) -> None:
    # dL/dt = w² (p − ρ g L) / (12 μ L): t = 12 μ / (w² ρ g) · (−L − H ln(1 − L/H)), H = p / (ρ g).
    wall = replace(RISING, pump=Pump(12_000, 1e-2, 0), resin=Resin(0.3, gel_time_s=100_000))
    high = 12_000 / WEIGHT
    scale = 12 * 0.3 / ((0.2e-3) ** 2 * WEIGHT)
    filling = pumping(wall)
    filling.apply(wait(scale * (-target_m - high * log(1 - target_m / high))))
    assert reach_m(filling) == pytest.approx(target_m, rel=0.01)


def test_a_falling_column_gains_by_its_weight() -> None:
    # The same with the sign turned: t = 12 μ / (w² ρ g) · (L − H ln(1 + L/H)).
    wall = replace(RISING, ports=(Port(1.0, drilled_m=0.1), Port(0)), pump=Pump(12_000, 1e-2, 0))
    high = 12_000 / WEIGHT
    scale = 12 * 0.3 / ((0.2e-3) ** 2 * WEIGHT)
    filling = pumping(wall)
    filling.apply(wait(scale * (0.6 - high * log(1 + 0.6 / high))))
    assert reach_m(filling) == pytest.approx(0.6, rel=0.01)


def test_a_weak_pump_holds_up_a_column_of_its_own_pressure() -> None:
    # Hydrostatics: it stops at p / (ρ g), 463.5 mm for 5 kPa, give or take a cell of 10 mm.
    wall = replace(RISING, pump=Pump(5_000, 1e-2, 0), resin=Resin(0.03, gel_time_s=900_000))
    filling = pumping(wall)
    filling.apply(wait(80_000))
    assert reach_m(filling) == pytest.approx(5_000 / WEIGHT, abs=0.01)


def test_orientation_turns_gravity() -> None:
    # Level: no weight. Overhead: the weight of the depth only, here against a pump just too weak.
    level = pumping(replace(RISING, orientation="horizontal", pump=Pump(5_000, 1e-2, 0)))
    level.apply(wait(80_000))
    assert level.behind.filled_share > 0.6
    wide = (WidthAt(0, 1e-3),)
    slab = replace(
        RISING, widths=wide, depth_m=0.5, rows=50, columns=20, length_m=0.2, ports=(Port(0.1),)
    )
    weak = replace(
        slab, orientation="overhead", ports=(Port(0), Port(0.2)), pump=Pump(2_700, 1e-2, 0)
    )
    filling = pumping(weak)
    filling.apply(cap(2))
    filling.apply(wait(1200))
    # 2,700 Pa lift 0.25 m of resin; the air above, shut in, keeps it lower still.
    assert 0 < filling.behind.filled_share < 2_700 / WEIGHT / 0.5


def test_resin_finds_its_level_when_the_valve_is_shut() -> None:
    wall = replace(
        RISING,
        depth_m=0.3,
        widths=(WidthAt(0, 0.6e-3),),
        ports=(Port(0), Port(0.5), Port(1.0)),
        columns=50,
        rows=15,
    )
    filling = pumping(wall)
    filling.apply(wait(2))
    filling.apply(close())
    uneven = np.ptp(filling._inside.fill.sum(axis=0))
    filling.apply(wait(3000))
    assert uneven > 2
    assert np.ptp(filling._inside.fill.sum(axis=0)) <= 1  # the cell that the level lies in
    assert abs(off_balance(filling)) < 1e-9


def test_an_open_port_at_the_foot_drains_the_crack_once_air_gets_in_above() -> None:
    ports = (Port(0, drilled_m=0.1), Port(1.0, drilled_m=0.1))
    wall = replace(RISING, ports=ports, resin=Resin(0.3, gel_time_s=100_000))
    filling = pumping(wall)
    filling.apply(wait(600))
    full = filling.behind
    filling.apply(cap(1))
    filling.apply(cap(2))
    filling.apply(wait(100))
    filling.apply(uncap(1))
    filling.apply(wait(3000))
    # A finger on the straw: nothing opens above, so the column hangs.
    assert filling.behind.in_crack_m3 == pytest.approx(full.in_crack_m3, rel=1e-3)
    filling.apply(uncap(2))
    filling.apply(wait(3000))
    # Free fall by the cubic law, w² ρ g / (12 μ) = 0.12 mm/s.
    fallen = 1 - filling.behind.filled_share
    assert fallen == pytest.approx((0.2e-3) ** 2 * WEIGHT / (12 * 0.3) * 3000, rel=0.02)
    assert abs(off_balance(filling)) < 1e-9


def test_a_crack_draws_resin_up_as_high_as_its_suction_carries() -> None:
    # trade-facts §7 example 3: γ 0.04 N/m, θ 30°, w 0.1 mm, ρ 1,100: 64 mm.
    wet = Resin(0.03, surface_tension_n_per_m=0.04, contact_angle_deg=30, gel_time_s=900_000)
    wall = replace(
        RISING,
        length_m=0.2,
        widths=(WidthAt(0, 0.1e-3),),
        ports=(Port(0, drilled_m=0.1), Port(0.2)),
        resin=wet,
        pump=Pump(0, 1e-2, 0),
        columns=400,
        rows=1,
    )
    filling = pumping(wall)
    filling.apply(wait(80_000))
    rise_mm = capillary_rise(0.04, 30, 0.1, 1.1).rise_mm
    assert rise_mm == pytest.approx(64, abs=0.5)
    assert reach_m(filling, wall) * 1000 == pytest.approx(rise_mm, abs=0.5)  # a cell


def test_suction_alone_draws_a_front_in_at_first_as_washburn_says() -> None:
    wet = Resin(0.3, surface_tension_n_per_m=0.04, contact_angle_deg=30)
    level = replace(LINE, widths=(WidthAt(0, 0.1e-3),), resin=wet, pump=Pump(0, 1e-2, 0))
    filling = pumping(level)
    filling.apply(wait(2000))
    expected_mm = capillary_front(0.04, 30, 0.1, 0.3, 2000).distance_mm
    assert reach_m(filling, level) * 1000 == pytest.approx(expected_mm, rel=0.01)
