"""The moving front: how long a step may be, and what it does to the cells (volume of fluid).

A step lasts until a share of the front's cells is full. What flows beyond full in the others is
passed on to the cells behind them, and what is drawn out beyond empty is taken from the full cells
beside: nothing is lost or made.
"""

import math
from dataclasses import dataclass

import numpy as np

from app.trade.filling.air import Air
from app.trade.filling.arrays import Array, Index
from app.trade.filling.inside import ATMOSPHERE_PA, FULL, REACHED, Inside, Setting
from app.trade.filling.plane import Plane
from app.trade.filling.pressure import Flows
from app.trade.filling.sharing import share_out, spread

# A step ends when this share of the cells that are filling is full …
BATCH = (0.25, 0.6)
# … or when one of them has too much: at most this share of a cell near the source, where a cell
# more changes all flows, and this far from it.
TOO_MUCH = (0.15, 2.0)
# In between, so much that the flow into the cell changes by about this share.
CHANGE = 0.03
# A pocket changes by at most this share of its volume in one step; one of very few cells by more.
POCKET_STEP = (0.15, 0.9)
SMALL_POCKET = 3
# A small pocket this near to the pressure around it stays as a bubble, and resin flows past it.
SETTLED = 0.02
# A pocket smaller than this share of a cell is gone.
LEAST_POCKET = 1e-6


def longest_step(plane: Plane, inside: Inside, setting: Setting, air: Air, flows: Flows) -> float:
    """How long these flows may last, in seconds per Pa·s of viscosity; inf when nothing moves."""
    filling, draining = np.flatnonzero(flows.into > 0), np.flatnonzero(flows.into < 0)
    limit = np.inf
    if filling.size:
        size, share = plane.volume_m3.flat[filling], inside.fill.flat[filling]
        pace = flows.into.flat[filling] / size
        times = np.maximum(1 - share, 0) / pace
        beyond = _beyond(plane, inside, flows, filling)
        most = float(((1 + beyond - share) / pace).min())
        slack = (float(np.median(beyond)) - TOO_MUCH[0]) / (TOO_MUCH[1] - TOO_MUCH[0])
        nth = int((BATCH[0] + slack * (BATCH[1] - BATCH[0])) * len(times))
        limit = min(max(float(np.partition(times, nth)[nth]), 0.2 * most), most)
        shown = setting.stops_at.flat[filling]
        until = np.maximum(REACHED - share[shown], 0) / pace[shown]
        limit = min(limit, float(until.min(initial=np.inf)))
    if draining.size:
        size, share = plane.volume_m3.flat[draining], inside.fill.flat[draining]
        limit = min(limit, float(((share + TOO_MUCH[0]) * size / -flows.into.flat[draining]).min()))
    return min(limit, _until_air_is_gone(plane, air, flows))


def _beyond(plane: Plane, inside: Inside, flows: Flows, filling: Index) -> Array:
    """How much too much each cell may get, in cells: the less, the steeper the pressure there."""
    wet = inside.is_full.ravel()[plane.beside[filling]]
    ease = (plane.ease_beside[filling] * wet).sum(axis=1)
    whole = float(np.ptp(flows.resin_pa[plane.is_crack]))
    steepness = flows.into.flat[filling] / np.maximum(ease * whole, 1e-300)
    beyond: Array = np.clip(CHANGE / np.maximum(steepness, 1e-9), *TOO_MUCH)
    return beyond


def _until_air_is_gone(plane: Plane, air: Air, flows: Flows) -> float:
    """Until a body of air is full of resin, or a pocket has changed as much as one step may."""
    flat = air.numbers.ravel()
    inflow = np.bincount(flat, flows.into.ravel(), len(air.volume_m3))
    inflow[0] = 0
    share = np.ones(len(inflow))
    if air.is_trapped.any():
        # The solution bends Boyle's law straight; the law says when the pressure found is reached.
        found = _found(plane, air, flows)
        most = np.where(air.volume_m3 > SMALL_POCKET * plane.mean_cell_m3, *POCKET_STEP)
        lost = np.where(found > air.pressure_pa, 1 - air.pressure_pa / found, most)
        share = np.where(air.is_trapped, np.minimum(lost, most), share)
        inflow = np.where(air.is_trapped, np.abs(inflow), inflow)
    losing = inflow > 0
    return float((share[losing] * air.volume_m3[losing] / inflow[losing]).min(initial=np.inf))


def _found(plane: Plane, air: Air, flows: Flows) -> Array:
    """The pressure that the solution finds in each body of air: the mean of its cells."""
    flat, count = air.numbers.ravel(), len(air.volume_m3)
    gauge = (flows.resin_pa - plane.weight_pa + plane.suction_pa).ravel()
    cells = np.maximum(np.bincount(flat, minlength=count), 1)
    pressure: Array = np.bincount(flat, gauge, count) / cells + ATMOSPHERE_PA
    return pressure


def advance(
    plane: Plane,
    inside: Inside,
    air: Air,
    flows: Flows,
    step: float,
    at_s: float,
    time_s: float,
    air_loss_per_s: float,
) -> None:
    """Let the flows last for a step (s per Pa·s), from at_s on for time_s; changes `inside`."""
    before = inside.fill.ravel().copy()
    numbers = air.numbers.ravel().copy()
    moving = np.flatnonzero(flows.into)
    inside.fill.flat[moving] += flows.into.flat[moving] * step / plane.volume_m3.flat[moving]
    passed = _pass_on(plane, inside, numbers, before)
    opened = _draw_back(plane, inside, numbers)
    spread(plane, inside.fill.ravel(), numbers)
    after = inside.fill.ravel()
    inside.is_full.flat[opened] = False
    inside.is_full.flat[np.flatnonzero((numbers > 0) & (after >= FULL))] = True
    inside.resin_pa[:] = flows.resin_pa
    kept = math.exp(-air_loss_per_s * time_s)
    _squeeze(plane, inside, air, flows, step, numbers, kept)
    reached = np.flatnonzero((before < REACHED) & (after >= REACHED))
    inside.arrival_s.flat[reached] = at_s + time_s * passed.at(REACHED, reached)
    inside.arrival_s[inside.fill < REACHED] = np.inf


@dataclass(frozen=True, slots=True)
class _Passing:
    """How each cell filled during a step: from `before` at the share `start` of it, to `peak`."""

    start: Array
    before: Array
    peak: Array

    def at(self, fill: float, cells: Index) -> Array:
        """The share of the step after which cells held this much."""
        start, before = self.start[cells], self.before[cells]
        gained = np.maximum(self.peak[cells] - before, 1e-12)
        part: Array = start + (1 - start) * np.clip((fill - before) / gained, 0, 1)
        return part


def _pass_on(plane: Plane, inside: Inside, numbers: Index, before: Array) -> _Passing:
    """Resin beyond full goes to the neighbours with room."""
    fill = inside.fill.ravel()
    dry = before <= 0
    passing = _Passing(np.where(dry, 1.0, 0.0), before, fill.copy())
    passing.start[fill > before] = 0
    for _ in range(20):
        over = np.flatnonzero((numbers > 0) & (fill > 1))
        if not over.size:
            break
        shared = share_out(plane, fill, over, (numbers > 0) & (fill < FULL))
        if not shared.cells.size:
            break
        np.minimum.at(passing.start, shared.partners, passing.at(1, shared.cells))
        passing.peak[shared.partners] = np.maximum(
            passing.peak[shared.partners], fill[shared.partners]
        )
    return passing


def _draw_back(plane: Plane, inside: Inside, numbers: Index) -> Index:
    """What is drawn out beyond empty comes from the full cells beside, which open; those cells.

    numbers: the body of air of each cell, 0 for full cells; opened cells join their neighbour's.
    """
    fill, full = inside.fill.ravel(), inside.is_full.ravel()
    opened: list[Index] = []
    for _ in range(20):
        under = np.flatnonzero((numbers > 0) & (fill < 0))
        if not under.size:
            break
        shared = share_out(plane, fill, under, full & (numbers == 0))
        if not shared.cells.size:
            break
        numbers[shared.partners] = numbers[shared.cells]
        opened.append(np.unique(shared.partners))
    return np.concatenate(opened) if opened else np.zeros(0, dtype=np.intp)


def _squeeze(
    plane: Plane,
    inside: Inside,
    air: Air,
    flows: Flows,
    step: float,
    numbers: Index,
    kept: float,
) -> None:
    """Boyle's law: what is left of each body's volume sets its pressure.

    kept: share of a pocket's overpressure that is left after what fades into the concrete.
    """
    lost = np.bincount(numbers, flows.into.ravel(), len(air.volume_m3)) * step
    volume = air.volume_m3 - lost
    over = np.maximum(air.pressure_pa - ATMOSPHERE_PA, 0)
    held = (air.pressure_pa - over * (1 - kept)) * air.volume_m3
    pressure = np.full(len(volume), ATMOSPHERE_PA)
    there = air.is_trapped & (volume > 0) & (held > 0)
    pressure[there] = held[there] / volume[there]
    inside.air_pa[:] = pressure[numbers].reshape(inside.fill.shape)
    if not air.is_trapped.any():
        return
    settled = np.abs(_found(plane, air, flows) / pressure - 1) < SETTLED
    least = np.where(settled, SMALL_POCKET, LEAST_POCKET) * plane.mean_cell_m3
    gone = air.is_trapped & (volume < least)
    if gone.any():
        inside.is_full |= gone[numbers].reshape(inside.fill.shape)
