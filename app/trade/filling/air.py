"""Air that resin has not displaced: which of it can still get out, and the rest by Boyle's law.

Air flows so much more easily than resin that one connected body of it has one pressure: that of
the open air if it reaches an open port, a pinhole or an open back edge; else what its own volume
makes it, p V = constant (Boyle 1662), at one temperature.
"""

from dataclasses import dataclass, replace

import numpy as np
from scipy.ndimage import label

from app.trade.filling.arrays import Array, Index, Mask
from app.trade.filling.inside import ATMOSPHERE_PA, Inside
from app.trade.filling.plane import Plane

Labels = Index
# Cells are neighbours across a face, not across a corner.
CROSS = np.array([[0, 1, 0], [1, 1, 1], [0, 1, 0]])


def bodies(plane: Plane, mask: Mask) -> tuple[Labels, int]:
    """Connected bodies of the cells of a mask, numbered from 1; 0 elsewhere. And how many."""
    if len(plane.strips) == 1:
        found, count = label(mask, CROSS)
        return found, count
    found = np.zeros(mask.shape, dtype=np.intp)
    count = 0
    for columns in plane.strips:
        part, more = label(mask[columns], CROSS)
        found[columns] = np.where(part > 0, part + count, 0)
        count += more
    return _joined(plane, found, count), count


def _joined(plane: Plane, found: Labels, count: int) -> Labels:
    """Bodies that meet where strips join get one number: the lower."""
    names = np.arange(count + 1)
    for a, b in plane.joins:
        both = (found[a] > 0) & (found[b] > 0)
        for one, other in zip(found[a][both], found[b][both], strict=True):
            low, high = sorted((names[one], names[other]))
            names[names == high] = low
    return names[found]


@dataclass(frozen=True, slots=True)
class Air:
    """The bodies of air: each cell's number, and by number volume, pressure, and is it shut in.

    Number 0 stands for cells without air.
    """

    numbers: Labels
    volume_m3: Array
    pressure_pa: Array
    is_trapped: Mask

    @property
    def trapped_cells(self) -> Mask:
        """Cells that belong to a pocket."""
        return self.is_trapped[self.numbers]

    def part(self, first: int, end: int) -> "Air":
        """The same bodies, seen in some columns only; their volumes stay whole."""
        return replace(self, numbers=self.numbers[first:end])


def find_air(plane: Plane, inside: Inside, is_vent: Mask) -> Air:
    """The bodies of air there are now. Bodies that have met share their air."""
    numbers, count = bodies(plane, plane.is_crack & ~inside.is_full)
    flat = numbers.ravel()
    free = ((1 - inside.fill) * plane.volume_m3).ravel()
    volume = np.maximum(np.bincount(flat, free, count + 1), 0)
    is_trapped = np.ones(count + 1, dtype=bool)
    is_trapped[numbers[is_vent]] = False
    is_trapped[0] = False
    pressure = np.full(count + 1, ATMOSPHERE_PA)
    squeezed = is_trapped & (volume > 0)
    if squeezed.any():
        held = np.bincount(flat, free * inside.air_pa.ravel(), count + 1)
        pressure[squeezed] = held[squeezed] / volume[squeezed]
    return Air(numbers, volume, pressure, is_trapped)
