"""The crack as cells: roughness that replays, branches, what is told about the inside."""

import base64
import zlib
from dataclasses import replace

import numpy as np
import pytest
from numpy.random import PCG64, Generator

from app.trade.crack import crack_volume
from app.trade.fill import Branch, Filling, Port, Roughness, WidthAt, cap, wait, watch
from app.trade.filling.noise import width_factors
from app.trade.filling.plane import lay_out
from app.trade.filling.state import NEVER
from tests.trade.filling.strips import LINE, off_balance, pumping, shows_at

ROUGH = Roughness(0.4, 0.1, seed=2024)
KEPT = [0.997534059, 0.939634413]


def test_roughness_is_pcg64s_own_stream_at_its_nodes() -> None:
    # numpy's Generator.random() is documented to use the upper 53 bits of each raw draw.
    nodes = np.arange(4) * 0.1
    found = width_factors(ROUGH, 0, nodes, np.array([0.0, 0.1]))
    drawn = Generator(PCG64([2024, 0])).random(5 * 3).reshape(5, 3)
    np.testing.assert_allclose(found, 1 + 0.4 * (2 * drawn[:4, :2] - 1), rtol=1e-12)


def test_roughness_replays_to_these_numbers() -> None:
    # Kept from a first run, so that a stored seed gives the same crack on any machine: PCG64's bits
    # are promised to stay (numpy NEP 19).
    found = width_factors(ROUGH, 0, np.array([0.05, 0.25]), np.array([0.03]))
    assert [round(float(x), 9) for x in found.ravel()] == KEPT


def test_roughness_is_the_same_on_every_grid_and_keeps_the_mean_width() -> None:
    rough = replace(LINE, roughness=Roughness(0.4, 0.01, seed=3))
    coarse, fine = lay_out(rough.with_grid(100, 5)), lay_out(rough.with_grid(300, 15))
    # The middle of a coarse cell is the middle of the middle one of its nine fine cells.
    np.testing.assert_allclose(coarse.width_m, fine.width_m[1::3, 1::3], rtol=1e-9)
    assert fine.width_m.mean() == pytest.approx(0.2e-3, rel=0.02)
    assert fine.width_m.min() >= 0.6 * 0.2e-3
    other = lay_out(replace(rough, roughness=Roughness(0.4, 0.01, seed=4)))
    assert not np.allclose(coarse.width_m, other.width_m)


def test_a_rough_crack_is_slower_than_a_smooth_one_of_the_same_mean_width() -> None:
    # Roughness makes the hydraulic width smaller than the gauge width (Zimmerman & Bodvarsson
    # 1996): strips of different width one behind the other.
    rough = replace(LINE, rows=1, roughness=Roughness(0.6, 0.02, seed=5))
    assert shows_at(rough, 2) > 1.1 * shows_at(replace(LINE, rows=1), 2)


def test_the_volume_is_that_of_the_trades_arithmetic() -> None:
    # crack_volume: length × depth × width; widths between readings by the trapezoidal rule.
    taper = replace(LINE, widths=(WidthAt(0, 0.3e-3), WidthAt(1.0, 0.1e-3)))
    expected_m3 = crack_volume(1000, 100, 0.2) * 1e-6
    assert Filling(LINE).behind.crack_m3 == pytest.approx(expected_m3, rel=1e-9)
    assert Filling(taper).behind.crack_m3 == pytest.approx(expected_m3, rel=1e-9)
    shallow = replace(LINE, back_width_share=0.5)
    assert Filling(shallow).behind.crack_m3 == pytest.approx(0.75 * expected_m3, rel=1e-9)


def test_a_branch_fills_like_the_rest_of_the_crack() -> None:
    # A branch from the far end on is the crack's own continuation: resin shows at its end when a
    # straight crack as long as both would show it. t ∝ L² (straight-front).
    bent = replace(
        LINE,
        length_m=0.5,
        columns=50,
        ports=(LINE.ports[0], Port(0.5, strip=1)),
        branches=(Branch(0.499, 0.5, (WidthAt(0, 0.2e-3),)),),
    )
    assert shows_at(bent, 2) == pytest.approx(450 * 0.995**2, rel=0.02)


def test_two_ways_round_an_island_are_alike_and_meet() -> None:
    # Strand and main crack are equal, so resin is as far on one as on the other all the time.
    island = replace(
        LINE,
        ports=(LINE.ports[0], Port(1.0)),
        branches=(Branch(0.305, 0.4, (WidthAt(0, 0.2e-3),), rejoins_m=0.705),),
    )
    filling = pumping(island)
    filling.apply(wait(120))
    plane, fill = filling._plane, filling._inside.fill
    main, strand = fill[plane.strips[0]][31:70], fill[plane.strips[1]]
    assert 5 < main[:, 0].sum() < 35
    assert strand[:, 0].sum() == pytest.approx(main[:, 0].sum(), abs=1.0)
    filling.apply(watch(3000, "resin-at-port", 2))
    filling.apply(wait(60))
    assert filling.behind.filled_share == pytest.approx(1, abs=1e-3)
    assert abs(off_balance(filling)) < 1e-9


def test_a_branch_without_a_port_keeps_its_air() -> None:
    # A port at each end and junction (UFGS 03930 §3.3.4): without one the branch is a pocket.
    branched = replace(LINE, branches=(Branch(0.5, 0.3, (WidthAt(0, 0.2e-3),)),))
    filling = pumping(branched)
    filling.apply(watch(3000, "resin-at-port", 2))
    filling.apply(cap(2))
    filling.apply(wait(2000))
    kept = [pocket for pocket in filling.behind.pockets if pocket.strip == 1]
    assert kept
    assert kept[0].to_m == pytest.approx(0.3)
    ported = replace(branched, ports=(*branched.ports, Port(0.3, strip=1)))
    filling = pumping(ported)
    filling.apply(wait(3000))
    assert all(pocket.strip != 1 for pocket in filling.behind.pockets)


def test_shares_by_depth_add_up_to_the_share_of_the_crack() -> None:
    filling = pumping(replace(LINE, depth_m=0.4, ports=(Port(0), Port(0.5)), rows=16))
    filling.apply(wait(600))
    behind = filling.behind
    assert len(behind.share_by_depth) == 8
    assert np.mean(behind.share_by_depth) == pytest.approx(behind.filled_share, abs=1e-5)
    assert behind.share_by_depth[0] > behind.share_by_depth[-1] > 0


def test_the_arrival_map_tells_when_each_block_was_filled() -> None:
    # A straight front: t = 450 s · L² (trade-facts §7 example 2).
    filling = pumping(LINE)
    filling.apply(wait(200))
    found = filling.arrival_map
    assert found.sizes == ((75, 5),)
    blocks = np.frombuffer(found.levels, dtype=np.uint8).reshape(75, 5)
    edges = [75 * 0 + n * 100 // 75 for n in range(76)]
    for n in range(75):
        middle = (edges[n] + edges[n + 1]) / 200
        expected = 450 * middle**2
        for level in blocks[n]:
            if expected > 215:
                assert level == NEVER
            elif expected < 190:
                assert found.time_s(int(level)) == pytest.approx(expected, abs=4)
    assert found.time_s(NEVER) is None


def test_the_arrival_map_is_small_enough_to_send() -> None:
    rough = replace(LINE, depth_m=0.2, roughness=ROUGH, columns=150, rows=40)
    filling = pumping(rough)
    filling.apply(watch(3000, "resin-at-port", 2))
    packed = filling.arrival_map.encoded()
    assert len(packed) < 2000
    assert zlib.decompress(base64.b64decode(packed)) == filling.arrival_map.levels
