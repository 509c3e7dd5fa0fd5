"""The moving front: what a step does to the cells (volume of fluid).

What flows beyond full in a cell is passed on to the cells behind it, and what is drawn out beyond
empty is taken from the full cells beside: nothing is lost or made.
"""

import math
from dataclasses import dataclass

import numpy as np

from app.trade.filling.arrays import Array, Index
from app.trade.filling.inside import ATMOSPHERE_PA, FULL, REACHED, Inside
from app.trade.filling.moment import Moment
from app.trade.filling.plane import Plane
from app.trade.filling.pressure import Flows
from app.trade.filling.sharing import share_out, spread
from app.trade.filling.step_length import SMALL_POCKET, pressure_found

# A small pocket this near to the pressure around it stays as a bubble, and resin flows past it.
SETTLED = 0.02
# A pocket smaller than this share of a cell is gone.
LEAST_POCKET = 1e-6


def advance(moment: Moment, flows: Flows, step: float, at_s: float, time_s: float) -> None:
    """Let the flows last for a step (s per Pa·s), from at_s on for time_s; changes `inside`."""
    plane, inside, air = moment.plane, moment.inside, moment.air
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
    kept = math.exp(-moment.setting.air_loss_per_s * time_s)
    _squeeze(moment, flows, step, numbers, kept)
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
    for _ in range(40):
        under = np.flatnonzero((numbers > 0) & (fill < 0))
        if not under.size:
            break
        shared = share_out(plane, fill, under, full & (numbers == 0))
        if not shared.cells.size:  # no full cell left beside them: from what else holds resin
            shared = share_out(plane, fill, under, fill > 0)
        if not shared.cells.size:
            break
        shut = numbers[shared.partners] == 0
        numbers[shared.partners[shut]] = numbers[shared.cells[shut]]
        opened.append(np.unique(shared.partners[shut]))
    return np.concatenate(opened) if opened else np.zeros(0, dtype=np.intp)


def _squeeze(moment: Moment, flows: Flows, step: float, numbers: Index, kept: float) -> None:
    """Boyle's law: what is left of each body's volume sets its pressure.

    kept: share of a pocket's overpressure that is left after what fades into the concrete.
    """
    plane, inside, air = moment.plane, moment.inside, moment.air
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
    settled = np.abs(pressure_found(plane, air, flows) / pressure - 1) < SETTLED
    least = np.where(settled, SMALL_POCKET, LEAST_POCKET) * plane.mean_cell_m3
    gone = air.is_trapped & (volume < least)
    if gone.any():
        inside.is_full |= gone[numbers].reshape(inside.fill.shape)
