"""A round front from one port, against the closed form of the radial front.

t = (6 μ / (w² Δp)) · [r² ln(r/r0) − (r² − r0²)/2], trade-facts §4 (the cubic law integrated
radially), as radial_flow.py has it. A port on the sealed face spreads over half a turn; the time is
that of the full turn, since both the room and the flow are half.
"""

from dataclasses import replace

import numpy as np
import pytest

from app.trade.fill import Back, Crack, Filling, Port, wait
from app.trade.filling.openings import seen_radius
from app.trade.radial_flow import radial_reach, radial_time
from tests.trade.filling.strips import ROUND, off_balance, pumping

OPEN = replace(ROUND, back=Back("open"))


def radius_by_volume_m(filling: Filling, crack: Crack, share_of_turn: float) -> float:
    return float(
        (filling.behind.in_crack_m3 / (np.pi * share_of_turn * crack.widths[0].width_m)) ** 0.5
    )


@pytest.mark.parametrize(("columns", "rows"), [(41, 20), (81, 40), (162, 40)])
def test_the_front_has_the_closed_forms_radius(columns: int, rows: int) -> None:
    crack = OPEN.with_grid(columns, rows)
    filling = pumping(crack)
    for reach_mm in (200, 300, 400):
        filling.apply(wait(radial_time(reach_mm, 2, 0.2, 0.1, 0.3) - filling.time_s))
        assert radius_by_volume_m(filling, crack, 0.5) == pytest.approx(reach_mm / 1000, rel=0.005)


@pytest.mark.parametrize("rows", [20, 40])
def test_every_cell_from_ten_cells_on_is_reached_within_three_percent(rows: int) -> None:
    # The front is round: at the time a cell is reached, the closed form's radius is the cell's.
    crack = OPEN.with_grid(2 * rows + 1, rows)
    filling = pumping(crack)
    filling.apply(wait(radial_time(400, 2, 0.2, 0.1, 0.3)))
    cell = crack.depth_m / rows
    along = (np.arange(crack.columns) + 0.5) * crack.length_m / crack.columns - 0.5
    deep = (np.arange(rows) + 0.5) * cell
    radius = np.hypot(along[:, None], deep)
    arrival = filling._inside.arrival_s
    ring = (radius >= 10 * cell) & (radius < 0.38)
    assert ring.sum() > 150
    expected = [radial_reach(float(t), 2, 0.2, 0.1, 0.3) / 1000 for t in arrival[ring]]
    np.testing.assert_allclose(expected, radius[ring], rtol=0.03)
    assert np.mean(expected / radius[ring]) == pytest.approx(1, abs=0.005)


def test_a_port_in_a_corner_spreads_over_a_quarter_turn() -> None:
    crack = replace(OPEN, ports=(Port(0), Port(1.0)), columns=80)
    filling = pumping(crack)
    filling.apply(wait(radial_time(400, 2, 0.2, 0.1, 0.3)))
    assert radius_by_volume_m(filling, crack, 0.25) == pytest.approx(0.4, rel=0.005)


def test_a_cell_in_the_middle_of_a_square_grid_is_seen_at_peacemans_radius() -> None:
    # Peaceman 1978, SPE J. 18(3): r = e^(−γ)/4 · √2 h = 0.1985 h in the open plane. On the sealed
    # edge a source and its image lie in neighbouring cells: the radius grows by e^(π/4), and in a
    # corner by e^(π/4 + 1/2), from the resistances 1/2 and 2/π between neighbours on a square
    # lattice (Cserti 2000, Am. J. Phys. 68, 896).
    assert seen_radius(1, 1, False) == pytest.approx(0.1985 * np.exp(np.pi / 4), rel=2e-4)
    assert seen_radius(1, 1, True) == pytest.approx(0.1985 * np.exp(np.pi / 4 + 0.5), rel=2e-4)


@pytest.mark.parametrize(("along", "is_corner"), [(1.0, False), (2.0, False), (0.5, True)])
def test_the_radius_holds_on_a_lattice_solved_directly(along: float, is_corner: bool) -> None:
    # One unit of flow into the port's cell of a large block whose rim, a circle of radius R, is
    # held at 0: by ln(R/r) per share of a turn the cell's pressure tells its radius.
    from scipy.sparse import coo_array
    from scipy.sparse.linalg import spsolve

    reach = 60.0
    columns, rows = int(reach / along) + 2, int(reach) + 2
    x = np.arange(columns) * along if not is_corner else (np.arange(columns) + 0.5) * along
    inside = np.hypot(x[:, None], np.arange(rows) + 0.5) < reach
    number = np.full(inside.shape, -1)
    number[inside] = np.arange(inside.sum())
    rows_, cols_, values = [], [], []
    for step, ease in (((1, 0), 1 / along), ((0, 1), along)):
        a = number[: columns - step[0], : rows - step[1]].ravel()
        b = number[step[0] :, step[1] :].ravel()
        # The first column of a block cut in half counts half, but its link sideways is whole.
        weight = np.full((columns, rows), ease)
        if not is_corner and step == (0, 1):
            weight[0] = ease / 2
        w = weight[: columns - step[0], : rows - step[1]].ravel()
        for one, other in ((a, b), (b, a)):
            own = one >= 0
            rows_ += [*one[own]]
            cols_ += [*one[own]]
            values += [*w[own]]
            both = own & (other >= 0)
            rows_ += [*one[both]]
            cols_ += [*other[both]]
            values += [*-w[both]]
    size = int(inside.sum())
    matrix = coo_array((values, (rows_, cols_)), shape=(size, size)).tocsc()
    source = np.zeros(size)
    source[number[0, 0]] = 1.0
    pressure = spsolve(matrix, source)[number[0, 0]]
    # A quarter turn either way: half of the edge port's flow goes into the half block.
    found = reach / np.exp(pressure * np.pi / 2)
    assert found == pytest.approx(seen_radius(along, 1.0, is_corner), rel=0.03)


def test_the_fill_is_the_same_on_both_sides_of_the_port() -> None:
    filling = pumping(OPEN)
    filling.apply(wait(40))
    fill = filling._inside.fill
    np.testing.assert_allclose(fill, fill[::-1], atol=1e-9)
    assert fill.sum() > 100


def test_finer_grids_come_to_the_same_time() -> None:
    # Time at which resin shows at a port 0.3 m away, from three grids: each halving of the cells
    # changes it less, and the finest two agree within two percent.
    from tests.trade.filling.strips import shows_at

    near = replace(ROUND, length_m=0.6, depth_m=0.2, ports=(Port(0.15), Port(0.45)))
    times = [shows_at(near.with_grid(*grid), 2) for grid in ((28, 9), (56, 18), (112, 36))]
    assert abs(times[2] - times[1]) < abs(times[1] - times[0])
    assert times[2] == pytest.approx(times[1], rel=0.02)


def test_resin_is_neither_lost_nor_made() -> None:
    filling = pumping(OPEN)
    for _ in range(5):
        filling.apply(wait(200))
        assert abs(off_balance(filling)) < 1e-9
    assert filling.behind.out_of_back_m3 > 0
