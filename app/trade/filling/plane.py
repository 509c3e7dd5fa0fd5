"""The crack laid out as cells: their widths, volumes and heights, and where the strips lie."""

from dataclasses import dataclass
from itertools import accumulate, pairwise

import numpy as np

from app.trade.capillary import GRAVITY_M_PER_S2
from app.trade.filling.arrays import Array, Faces, Index, Mask
from app.trade.filling.crack import Crack, Strip
from app.trade.filling.faces import Link, faces_between, links_along, neighbours, solving_order
from app.trade.filling.noise import width_factors


@dataclass(frozen=True, slots=True)
class Plane:
    """Every strip's cells in one set of arrays, columns × rows; row 0 lies under the seal.

    strips: for each strip the array rows that hold its columns, in order along it. joins: columns
    where two strips meet. weight_pa: ρ g × height. suction_pa: capillary pull at the front.
    along_m, deep_m: size of a cell, by strip and for all. beside, ease_beside: for each cell, by
    its place in the flattened arrays, its neighbours and the conductance to each (0 for none).
    is_whole: the faces touch nowhere, so that all cells are connected.
    """

    width_m: Array
    volume_m3: Array
    is_crack: Mask
    weight_pa: Array
    suction_pa: Array
    faces: tuple[Faces, ...]
    strips: tuple[Index, ...]
    joins: tuple[tuple[int, int], ...]
    along_m: tuple[float, ...]
    deep_m: float
    beside: Index
    ease_beside: Array
    is_whole: bool
    mean_cell_m3: float

    @property
    def band(self) -> int:
        """How far apart two neighbours stand at most among the unknowns."""
        return max(face.offset for face in self.faces)

    @property
    def total_m3(self) -> float:
        """Volume of the crack."""
        return float(self.volume_m3.sum())

    def part(self, first: int, end: int) -> "Plane":
        """The columns from `first` up to `end` of a crack without branches, as a plane of its own.

        Its arrays are views; nothing passes its two edges.
        """
        rows, here = self.width_m.shape[1], slice(first, end)
        down, across = self.faces[0], self.faces[1:]
        inner = slice(first, end - 1)
        cells = slice(first * rows, end * rows)
        beside = self.beside[cells] - first * rows
        outside = (beside < 0) | (beside >= (end - first) * rows)
        return Plane(
            *(self.width_m[here], self.volume_m3[here], self.is_crack[here]),
            *(self.weight_pa[here], self.suction_pa[here]),
            (
                Faces(down.a, down.b, 1, down.conductance[here], down.lift_m[here]),
                *(
                    Faces(
                        *(slice(0, end - first - 1), slice(1, end - first), face.offset),
                        *(face.conductance[inner], face.lift_m[inner]),
                    )
                    for face in across
                ),
            ),
            (np.arange(end - first),),
            (),
            self.along_m,
            self.deep_m,
            np.where(outside, 0, beside),
            np.where(outside, 0.0, self.ease_beside[cells]),
            *(self.is_whole, self.mean_cell_m3),
        )

    def column(self, strip: int, at_m: float) -> int:
        """The column of cells at a place along a strip."""
        columns = self.strips[strip]
        return int(columns[min(int(at_m / self.along_m[strip]), len(columns) - 1)])


def lay_out(crack: Crack) -> Plane:
    """The cells of a crack."""
    strips = crack.strips
    along = tuple(strip.length_m / strip.columns for strip in strips)
    deep = crack.depth_m / crack.rows
    starts = list(accumulate((strip.columns for strip in strips), initial=0))
    joints = _joints(crack, starts, along)
    links = links_along(starts, along) + joints
    place = solving_order(starts[-1], links)
    rows = tuple(place[start:end] for start, end in pairwise(starts))
    width, height = (np.empty((starts[-1], crack.rows)) for _ in range(2))
    length = np.empty(starts[-1])
    is_crack = np.ones(width.shape, dtype=bool)
    for number, strip in enumerate(strips):
        middles, depths = _middles(strip.columns, along[number]), _middles(crack.rows, deep)
        width[rows[number]] = _widths(crack, number, middles, depths)
        height[rows[number]] = _heights(crack, strip, middles, depths)
        is_crack[rows[number]] = ~_touching(crack, number, middles, depths)
        length[rows[number]] = along[number]
    placed = [Link(int(place[link.a]), int(place[link.b]), *link[2:]) for link in links]
    faces = faces_between(placed, length, deep, width, height, is_crack)
    volume = np.where(is_crack, width * length[:, None] * deep, 0.0)
    return Plane(
        *(width, volume, is_crack),
        crack.resin.density_kg_per_m3 * GRAVITY_M_PER_S2 * height,
        crack.resin.pull_n_per_m / width,
        faces,
        rows,
        tuple((int(place[link.a]), int(place[link.b])) for link in joints),
        *(along, deep),
        *neighbours(faces, width.shape),
        bool(is_crack.all()),
        float(volume.sum()) / max(int(is_crack.sum()), 1),
    )


def _middles(count: int, cell_m: float) -> Array:
    return np.arange(0.5, count, 1.0, dtype=np.float64) * cell_m


def _joints(crack: Crack, starts: list[int], along: tuple[float, ...]) -> list[Link]:
    """Where branches meet the main crack: on the middle line of one of its columns."""
    found: dict[tuple[int, int], Link] = {}
    for number, branch in enumerate(crack.branches, start=1):
        first, last = starts[number], starts[number + 1] - 1
        for at_m, column in ((branch.at_m, first), (branch.rejoins_m, last)):
            if at_m is not None:
                main = min(int(at_m / along[0]), crack.columns - 1)
                found.setdefault((main, column), Link(main, column, 0.0, along[number] / 2))
    return list(found.values())


def _widths(crack: Crack, number: int, middles: Array, depths: Array) -> Array:
    readings = crack.strips[number].widths
    along = np.interp(
        middles, [reading.at_m for reading in readings], [reading.width_m for reading in readings]
    )
    deep = 1 + (crack.back_width_share - 1) * depths / crack.depth_m
    widths: Array = along[:, None] * deep
    if crack.roughness.share:
        widths = widths * width_factors(crack.roughness, number, middles, depths)
    return widths


def _heights(crack: Crack, strip: Strip, middles: Array, depths: Array) -> Array:
    heights = np.zeros((len(middles), len(depths)))
    if crack.orientation == "vertical":
        heights += (strip.foot_m + strip.rise * middles)[:, None]
    elif crack.orientation == "overhead":
        heights += depths
    return heights


def _touching(crack: Crack, number: int, middles: Array, depths: Array) -> Mask:
    touching = np.zeros((len(middles), len(depths)), dtype=bool)
    for patch in crack.contacts:
        if patch.strip == number:
            beside = (middles >= patch.from_m) & (middles < patch.to_m)
            below = (depths >= patch.from_depth_m) & (depths < patch.to_depth_m)
            touching |= beside[:, None] & below
    return touching
