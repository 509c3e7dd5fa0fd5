"""What the model tells: what a hand sees, what is behind the wall, and when resin got where."""

import base64
import zlib
from dataclasses import dataclass

import numpy as np

from app.trade.filling.air import find_air
from app.trade.filling.arrays import Array, Mask
from app.trade.filling.inside import FULL, Inside
from app.trade.filling.plane import Plane

DEPTH_BANDS = 8
MOST_COLUMNS, MOST_ROWS = 75, 20
LEVELS = 254
NEVER = 255


@dataclass(frozen=True, slots=True)
class Seen:
    """What a hand at the wall can know: the clock, the gauge, the pump, its ports and leaks."""

    time_s: float
    gauge_pa: float
    set_pa: float
    flow_m3_per_s: float
    used_m3: float
    hose_at: int  # port number, 0 for none
    is_valve_open: bool
    capped: tuple[int, ...]
    showing: tuple[int, ...]  # open ports with resin at them
    leaking: tuple[int, ...]  # pinholes
    is_gelled: bool


@dataclass(frozen=True, slots=True)
class Pocket:
    """Air shut in: where it lies (its outer bounds on one strip), how big, how hard pressed."""

    strip: int
    from_m: float
    to_m: float
    from_depth_m: float
    to_depth_m: float
    volume_m3: float
    pressure_pa: float  # absolute


@dataclass(frozen=True, slots=True)
class Behind:
    """What is behind the wall. Shares are of the crack's volume.

    share_by_depth: in DEPTH_BANDS bands (fewer on a grid with fewer rows), the face first.
    """

    time_s: float
    crack_m3: float
    in_crack_m3: float
    filled_share: float
    share_by_depth: tuple[float, ...]
    pockets: tuple[Pocket, ...]
    trapped_share: float
    used_m3: float
    out_of_ports_m3: float
    out_of_pinholes_m3: float
    out_of_back_m3: float

    @property
    def leaked_m3(self) -> float:
        """All resin that left the crack again."""
        return self.out_of_ports_m3 + self.out_of_pinholes_m3 + self.out_of_back_m3


@dataclass(frozen=True, slots=True)
class ArrivalMap:
    """When each block of the crack was filled, for a picture that moves.

    sizes: columns and rows of blocks for each strip. levels: strip after strip, column after
    column, the face first: 0 at the start to 254 at end_s, 255 for a block not filled at the end.
    """

    end_s: float
    sizes: tuple[tuple[int, int], ...]
    levels: bytes

    def encoded(self) -> str:
        """The levels packed: base64 of zlib's deflate. About 1 kB for a whole crack."""
        return base64.b64encode(zlib.compress(self.levels, 9)).decode("ascii")

    def time_s(self, level: int) -> float | None:
        """The time that a level stands for; None for never."""
        return None if level == NEVER else level / LEVELS * self.end_s


def rounded(value: float) -> float:
    """Six digits: what differs from machine to machine lies far below them."""
    return float(f"{value:.6g}")


def share_by_depth(plane: Plane, inside: Inside) -> tuple[float, ...]:
    """Filled share of each band of depth."""
    held = (inside.fill * plane.volume_m3).sum(axis=0)
    room = plane.volume_m3.sum(axis=0)
    bands = np.array_split(np.arange(len(room)), min(DEPTH_BANDS, len(room)))
    shares = [held[band].sum() / max(room[band].sum(), 1e-300) for band in bands]
    return tuple(round(float(share), 6) for share in shares)


def pockets_of(plane: Plane, inside: Inside, is_vent: Mask) -> tuple[Pocket, ...]:
    """Pockets of more than half a cell, the largest first; one entry for each strip it is on."""
    air = find_air(plane, inside, is_vent)
    cell = plane.mean_cell_m3
    free = (1 - inside.fill) * plane.volume_m3
    found = []
    for number in np.flatnonzero(air.is_trapped & (air.volume_m3 > cell / 2)):
        for strip, columns in enumerate(plane.strips):
            mine = (air.numbers[columns] == number) & (inside.fill[columns] < FULL)
            if mine.any():
                volume = float(free[columns][mine].sum())
                found.append(_pocket(plane, strip, mine, volume, float(air.pressure_pa[number])))
    return tuple(sorted(found, key=lambda pocket: -pocket.volume_m3))


def _pocket(plane: Plane, strip: int, mine: Mask, volume: float, pressure: float) -> Pocket:
    columns, rows = np.flatnonzero(mine.any(axis=1)), np.flatnonzero(mine.any(axis=0))
    along, deep = plane.along_m[strip], plane.deep_m
    return Pocket(
        strip,
        *(float(columns[0]) * along, float(columns[-1] + 1) * along),
        *(float(rows[0]) * deep, float(rows[-1] + 1) * deep),
        rounded(volume),
        rounded(pressure),
    )


def arrival_map(plane: Plane, inside: Inside, end_s: float) -> ArrivalMap:
    """The map of a crack as it is now."""
    sizes, levels = [], []
    for columns in plane.strips:
        arrival, fill = inside.arrival_s[columns], inside.fill[columns]
        volume = plane.volume_m3[columns]
        shape = (min(len(columns), MOST_COLUMNS), min(arrival.shape[1], MOST_ROWS))
        came = np.where(np.isfinite(arrival), arrival, end_s)
        room = np.maximum(_blocks(volume, shape), 1e-300)
        share = _blocks(fill * volume, shape) / room
        mean = _blocks(came * fill * volume, shape) / np.maximum(share * room, 1e-300)
        level = np.rint(np.clip(mean / max(end_s, 1e-9), 0, 1) * LEVELS)
        sizes.append(shape)
        levels.append(np.where(share >= 0.5, level, NEVER).astype(np.uint8).tobytes())
    return ArrivalMap(rounded(end_s), tuple(sizes), b"".join(levels))


def _blocks(values: Array, shape: tuple[int, int]) -> Array:
    """Sums over blocks of cells, as even in size as whole cells allow."""
    starts = [np.arange(n) * size // n for n, size in zip(shape, values.shape, strict=True)]
    summed: Array = np.add.reduceat(np.add.reduceat(values, starts[0], axis=0), starts[1], axis=1)
    return summed
