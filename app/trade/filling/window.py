"""Which part of the crack has to be solved: where something moves, and a margin around it.

Full columns far from the front, the hose and every opening take no part: along a strip with sealed
edges a cross-flow fades by e^(−π x / depth) (Laplace's equation in a strip), so beyond two depths
less than 0.2 % of it is left. The part is cut off as if sealed, so no resin is lost by it.
"""

import math

import numpy as np

from app.trade.filling.air import Air
from app.trade.filling.arrays import Mask
from app.trade.filling.inside import Inside, Setting
from app.trade.filling.plane import Plane
from app.trade.filling.step_length import SMALL_POCKET

DEPTHS = 2.0
# Dry columns ahead of the front that a step can reach.
AHEAD = 3
# Windows begin and end at multiples of so many columns, so that they can be kept and used again.
STEP = 5


class Windows:
    """Parts of a plane, each made once."""

    def __init__(self, plane: Plane) -> None:
        self.plane = plane
        columns, rows = plane.width_m.shape
        self._margin = math.ceil(DEPTHS * rows * plane.deep_m / plane.along_m[0])
        self._cell_m3 = plane.mean_cell_m3
        self._parts: dict[tuple[int, int], Plane] = {(0, columns): plane}

    def part(self, first: int, end: int) -> Plane:
        """The plane's columns from first up to end."""
        if (first, end) not in self._parts:
            self._parts[first, end] = self.plane.part(first, end)
        return self._parts[first, end]

    def has_big_pocket(self, air: Air) -> bool:
        """Is there a pocket of more than a few cells?"""
        return bool(self._big_pockets(air).any())

    def _big_pockets(self, air: Air) -> Mask:
        return air.is_trapped & (air.volume_m3 > SMALL_POCKET * self._cell_m3)

    def find(self, inside: Inside, setting: Setting, air: Air) -> tuple[int, int]:
        """The window that has to be solved now; all of a crack with branches."""
        columns = self.plane.width_m.shape[0]
        if len(self.plane.strips) > 1:
            return 0, columns
        has_full: Mask = np.any(inside.is_full, axis=1)
        wide = has_full.copy()
        wide[1:] |= has_full[:-1]
        wide[:-1] |= has_full[1:]
        active: Mask = wide & (self.plane.is_crack & ~inside.is_full).any(axis=1)
        active |= (inside.is_full & (setting.outlet_m3 > 0)).any(axis=1)
        if air.is_trapped.any():  # a small pocket beyond the margin just keeps its size
            active |= self._big_pockets(air)[air.numbers].any(axis=1)
        if setting.hose:
            active[setting.hose.port.cells[0]] = True
        moving, wet = np.flatnonzero(active), np.flatnonzero(active | has_full)
        if not moving.size:
            return 0, min(columns, STEP)
        first = max(int(moving[0]) - self._margin, int(wet[0]) - AHEAD, 0)
        last = min(int(moving[-1]) + self._margin, int(wet[-1]) + AHEAD, columns - 1)
        return first // STEP * STEP, min((last // STEP + 1) * STEP, columns)
