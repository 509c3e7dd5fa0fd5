"""The linear system for the resin's pressure at one moment, and its solution.

Unknown is the resin's pressure plus ρ g h in every full cell: what flows in flows out. The front
is held at the middle of the cell it crosses, at the pressure of the air before it less the
capillary suction; that is the mean of its way through the cell, so a straight front comes out
exact. Cells of a trapped pocket are unknown too: air flows between them all but freely, and each
gives way as Boyle's law says, so that a long step cannot overshoot.

Flows are times the viscosity. The matrix is symmetric and banded; one factorisation serves two
right-hand sides: everything but the pump, and the answer to 1 Pa at the hose.
"""

import numpy as np
from scipy.linalg import solveh_banded

from app.trade.filling.air import bodies
from app.trade.filling.arrays import Array, Faces, Mask
from app.trade.filling.inside import ATMOSPHERE_PA, Hose
from app.trade.filling.moment import Moment
from app.trade.filling.plane import Plane

# Air against resin in one slot. Really about 10 000; enough that a pocket has one pressure.
AIR_EASE = 1000.0


class Bench:
    """Room for the matrix and the right-hand sides, kept from step to step."""

    def __init__(self, plane: Plane) -> None:
        columns, rows = plane.width_m.shape
        self._rows, self._band = rows, plane.band + 1
        self._room = np.zeros((columns * rows, self._band))
        self.matrix = self._room
        self.clear(columns)

    def clear(self, columns: int) -> None:
        """So many columns of cells, all zero: the last solution has overwritten everything."""
        self.matrix = self._room[: columns * self._rows]
        self.matrix.fill(0)
        self.by_cell = self.matrix.reshape(columns, self._rows, self._band)
        self.sides = np.zeros((columns, self._rows, 2))

    def solve(self, is_solved: Mask) -> tuple[Array, Array]:
        """Both solutions, 0 where nothing is solved."""
        if not is_solved.any():
            return self.sides[..., 0], self.sides[..., 1]
        self.by_cell[..., 0][~is_solved] = 1
        found = solve_banded(self.matrix.T, self.sides.reshape(-1, 2)).reshape(self.sides.shape)
        return found[..., 0], found[..., 1]


def solve_banded(band: Array, sides: Array) -> Array:
    """Cholesky's method for a symmetric positive definite band, lower form."""
    solution: Array = solveh_banded(
        band, sides, lower=True, overwrite_ab=True, overwrite_b=True, check_finite=False
    )
    return solution


def anchored_cells(moment: Moment) -> Mask:
    """Full cells whose pressure something outside them fixes. The rest cannot flow."""
    plane, setting, full = moment.plane, moment.setting, moment.inside.is_full
    if plane.is_whole:
        # Cells that are all connected: a full one leads to the front, unless all are full.
        holds = setting.hose is None and not (setting.outlet_m3 > 0).any()
        return np.zeros_like(full) if holds and full.all() else full
    numbers, count = bodies(plane, full)
    touched = setting.outlet_m3 > 0
    if setting.hose:
        touched[setting.hose.port.cells] = True
    flat = full.ravel()
    empty = np.flatnonzero(plane.is_crack.ravel() & ~flat)
    wet = flat[plane.beside[empty]] & (plane.ease_beside[empty] > 0)
    touched.flat[plane.beside[empty][wet]] = True
    is_anchored = np.zeros(count + 1, dtype=bool)
    is_anchored[numbers[touched & full]] = True
    return full & is_anchored[numbers]


def fill_in(bench: Bench, moment: Moment, give: float) -> tuple[Mask, Array]:
    """Write the system onto the bench; which cells are solved, and the others' known pressure.

    give: viscosity over the time that pockets have to give way, Pa.
    """
    plane, inside, setting, air = moment.plane, moment.inside, moment.setting, moment.air
    bench.clear(plane.width_m.shape[0])
    pocket = air.trapped_cells
    solved = anchored_cells(moment) | pocket
    offset = plane.weight_pa - plane.suction_pa
    known = air.pressure_pa[air.numbers] - ATMOSPHERE_PA + offset
    diagonal, side = bench.by_cell[..., 0], bench.sides[..., 0]
    for face in plane.faces:
        _couple(bench, face, inside.is_full, solved, known)
        if pocket.any():
            _air_link(bench, face, pocket, offset)
    outlet = np.where(inside.is_full, setting.outlet_m3, 0)
    diagonal += outlet
    side += outlet * plane.weight_pa
    if pocket.any():
        # Boyle's law for a small change: a pocket gives V / p for each pascal.
        free = np.maximum(1 - inside.fill, 0) * plane.volume_m3
        softness = give * np.where(pocket, free / air.pressure_pa[air.numbers], 0)
        diagonal += softness
        side += softness * known
    if setting.hose:
        _join(bench, setting.hose, solved)
    return solved, known


def _couple(bench: Bench, face: Faces, full: Mask, solved: Mask, known: Array) -> None:
    """Resin through the faces that have a full cell on either side."""
    a, b = face.a, face.b
    flow = face.conductance * (full[a] | full[b])
    in_a, in_b = flow * solved[a], flow * solved[b]
    diagonal, side = bench.by_cell[..., 0], bench.sides[..., 0]
    diagonal[a] += in_a
    diagonal[b] += in_b
    both = in_a * solved[b]
    bench.by_cell[..., face.offset][a] -= both
    side[a] += (in_a - both) * known[b]
    side[b] += (in_b - both) * known[a]


def _air_link(bench: Bench, face: Faces, pocket: Mask, offset: Array) -> None:
    """Air between the cells of a pocket: one pressure, whatever their height or width."""
    a, b = face.a, face.b
    ease = AIR_EASE * face.conductance * (pocket[a] & pocket[b])
    shift = ease * (offset[a] - offset[b])
    diagonal, side = bench.by_cell[..., 0], bench.sides[..., 0]
    diagonal[a] += ease
    diagonal[b] += ease
    bench.by_cell[..., face.offset][a] -= ease
    side[a] += shift
    side[b] -= shift


def _join(bench: Bench, hose: Hose, solved: Mask) -> None:
    cells = hose.port.cells
    joined = hose.port.joined_m3 * solved[cells]
    bench.by_cell[..., 0][cells] += joined
    bench.sides[..., 1][cells] = joined
