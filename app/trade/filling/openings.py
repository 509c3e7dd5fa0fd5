"""Ports, pinholes and the back edge: how well each is joined to the cells beside it.

A port is smaller than a cell, so the pressure of the cell it opens into is not the pressure at the
port's rim. On a square grid the cell's pressure is that found at 0.198 of a cell from a source in
the middle of the plane (Peaceman 1978, SPE J. 18(3)). Here the source lies on the sealed front
edge, or in a corner: images behind the seal give the radii below. With them the flow of a port is
that of the radial front's closed form.
"""

import math
from dataclasses import dataclass

import numpy as np

from app.trade.errors import NotListed, OutOfRange
from app.trade.filling.arrays import Array, Index
from app.trade.filling.crack import Crack
from app.trade.filling.plane import Plane

# The smallest series resistance of a port or a back edge, in units of 12/w³.
LEAST = 0.05
EULER = 0.5772156649015329


@dataclass(frozen=True, slots=True)
class Opening:
    """A port: the cells it opens into, and how well.

    joined_m3: conductance from the port's mouth to each cell. skin: what the pump's flow meets
    besides, 1/m³; negative when the mouth is wider than the grid can show. filling_skin: the same
    while the only cell is still filling. outlet_m3: conductance of an open port that resin has
    reached.
    """

    cells: tuple[Index, Index]
    joined_m3: Array
    skin: float
    filling_skin: float
    outlet_m3: Array
    weight_pa: float


def seen_radius(along_m: float, deep_m: float, is_corner: bool) -> float:
    """Distance from a port at which the pressure is that of the cell it opens into."""
    flat, steep = along_m / deep_m, deep_m / along_m
    exponent = steep * math.atan(flat)
    if is_corner:
        exponent = (exponent + flat * math.atan(steep) + 1) / 2
    return math.exp(exponent - EULER) / 4 * math.hypot(along_m, deep_m)


def ports_of(crack: Crack, plane: Plane) -> tuple[Opening, ...]:
    """The ports of a crack, in order."""
    found = []
    taken: dict[int, int] = {}
    for number, port in enumerate(crack.ports, start=1):
        column = plane.column(port.strip, port.at_m)
        if taken.setdefault(column, number) != number:
            raise NotListed("ports", (taken[column], number), "two ports share one column of cells")
        if not plane.is_crack[column, 0]:
            raise NotListed("ports", number, "the faces touch under this port")
        is_end = column in _ends(crack, plane, port.strip)
        rows = max(1, round(port.drilled_m / plane.deep_m)) if port.drilled_m else 0
        if rows:
            found.append(_drilled(plane, column, rows, plane.along_m[port.strip], is_end))
        else:
            found.append(_surface(crack, plane, column, plane.along_m[port.strip], is_end))
    return tuple(found)


def _ends(crack: Crack, plane: Plane, strip: int) -> tuple[int, ...]:
    """Columns at which a strip ends blind."""
    columns = plane.strips[strip]
    first, last = int(columns[0]), int(columns[-1])
    if strip == 0:
        return first, last
    return () if crack.branches[strip - 1].rejoins_m is not None else (last,)


def _surface(crack: Crack, plane: Plane, column: int, along_m: float, is_end: bool) -> Opening:
    radius = crack.port_radius_m
    share = math.pi / 2 if is_end else math.pi  # of a full turn of 2 π, seen from the port
    filled = math.sqrt(2 * along_m * plane.deep_m / share)  # radius of as much area as the cell
    if radius > 0.8 * filled:
        raise OutOfRange("port_radius_m", radius, 0, 0.8 * filled, "m")
    unit = 12 / float(plane.width_m[column, 0]) ** 3
    rim = math.log(seen_radius(along_m, plane.deep_m, is_end) / radius) / share * unit
    # The mean resistance while the front goes from the port's rim to the cell's: radial-front.
    mean = (math.log(filled / radius) - (1 - (radius / filled) ** 2) / 2) / share * unit
    joint = unit / 100  # nearly the cell itself; the skin makes up for it
    return Opening(
        (np.array([column]), np.array([0])),
        np.array([1 / joint]),
        rim - joint,
        mean - joint,
        np.array([1 / max(rim, LEAST * unit)]),
        float(plane.weight_pa[column, 0]),
    )


def _drilled(plane: Plane, column: int, rows: int, along_m: float, is_end: bool) -> Opening:
    """A hole drilled into the depth: a line source along its cells."""
    deep = np.arange(rows)
    deep = deep[plane.is_crack[column, :rows]]
    unit = 12 / plane.width_m[column, deep] ** 3 * along_m / plane.deep_m
    joined = 1 / (unit / 2 if is_end else unit / 100)
    cells = (np.full(len(deep), column), deep)
    return Opening(cells, joined, 0.0, 0.0, joined, float(plane.weight_pa[column, :rows].mean()))


def pinholes_of(crack: Crack, plane: Plane) -> tuple[tuple[int, float], ...]:
    """For each pinhole its column, and the conductance from the cell under it to the open air."""
    found = []
    for hole in crack.pinholes:
        column = plane.column(hole.strip, hole.at_m)
        cell = 6 * plane.deep_m / plane.along_m[hole.strip] / float(plane.width_m[column, 0]) ** 3
        leak = hole.conductance_m3
        found.append((column, 1 / (1 / leak + cell) if leak else 0.0))
    return tuple(found)


def back_of(crack: Crack, plane: Plane) -> Array:
    """Conductance from each column's last cell to the open air behind; 0 where sealed."""
    back = crack.back
    leaks = np.zeros(plane.width_m.shape[0])
    if back.kind == "sealed":
        return leaks
    is_whole = back.from_m is None and back.to_m is None
    for number, columns in enumerate(plane.strips):
        if number and not is_whole:
            break
        along = plane.along_m[number]
        cell = 6 * plane.deep_m / along / plane.width_m[columns, -1] ** 3
        middles = (np.arange(len(columns)) + 0.5) * along
        reached = (middles >= (back.from_m or 0)) & (
            middles < (np.inf if back.to_m is None else back.to_m)
        )
        beyond = 0.0 if back.kind == "open" else _through(back.conductance_m2 * along)
        leaks[columns] = np.where(reached & plane.is_crack[columns, -1], 1 / (cell + beyond), 0)
    return leaks


def _through(conductance_m3: float) -> float:
    return 1 / conductance_m3 if conductance_m3 else math.inf
