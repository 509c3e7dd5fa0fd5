"""Passing resin between neighbours, so that no cell holds more than full or less than nothing."""

from dataclasses import dataclass

import numpy as np

from app.trade.filling.arrays import Array, Index, Mask
from app.trade.filling.plane import Plane


@dataclass(frozen=True, slots=True)
class Shared:
    """Resin that changed cells: from which, to which, one entry for each face it went through."""

    cells: Index
    partners: Index


def share_out(plane: Plane, fill: Array, cells: Index, partners: Mask) -> Shared:
    """Bring `cells` to exactly full (if beyond) or empty (if below) through their neighbours.

    What is too much, or missing, is shared among the neighbours that are partners, by how well
    they conduct. Changes `fill`; cells without a partner keep what they have.
    """
    beside, ease = plane.beside[cells], plane.ease_beside[cells]
    weight = ease * partners[beside]
    total = weight.sum(axis=1)
    able = total > 0
    cells, beside, weight, total = cells[able], beside[able], weight[able], total[able]
    goal = np.where(fill[cells] > 1, 1.0, 0.0)
    excess = (fill[cells] - goal) * plane.volume_m3.flat[cells]
    fill[cells] = goal
    moved = (excess / total)[:, None] * weight
    used = weight > 0
    to = beside[used]
    np.add.at(fill, to, moved[used] / plane.volume_m3.flat[to])
    return Shared(np.repeat(cells, used.sum(axis=1)), to)


def spread(plane: Plane, fill: Array, numbers: Index) -> None:
    """What no neighbour could take goes to the room left in the same body of air, by volume."""
    off = np.abs(fill - 0.5) > 0.5 + 1e-12
    if not off.any():
        return
    volume = plane.volume_m3.ravel()
    for cell in np.flatnonzero(off & (numbers > 0)):
        goal = 1.0 if fill[cell] > 1 else 0.0
        body = np.flatnonzero(numbers == numbers[cell])
        room = np.clip(1 - fill[body] if goal else fill[body], 0, 1) * volume[body]
        excess = float((fill[cell] - goal) * volume[cell])
        if room.sum() > abs(excess):
            fill[cell] = goal
            fill[body] += excess * room / room.sum() / volume[body]
