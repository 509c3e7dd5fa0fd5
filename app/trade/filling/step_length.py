"""How long the flows of one moment may be taken to last.

Until a share of the front's cells is full: fewer near the source, where each cell more changes all
flows, and never so long that one cell gets much too much, that a pocket changes by much, or that
resin passes a place where a hand would see it.
"""

import numpy as np

from app.trade.filling.air import Air
from app.trade.filling.arrays import Array, Index
from app.trade.filling.inside import ATMOSPHERE_PA, MIDDLE, Inside
from app.trade.filling.moment import Moment
from app.trade.filling.plane import Plane
from app.trade.filling.pressure import Flows

# A step ends when this share of the cells that are filling is full, the first near the source, the
# second far from it …
BATCH = (0.3, 0.9)
# … or when one of them has too much: at most so many cells near the source, where a cell more
# changes all flows, and so many far from it.
TOO_MUCH = (0.1, 3.0)
# In between, so much that the flow into the cell changes by about this share.
CHANGE = 0.025
# A pocket changes by at most this share of its volume in one step; one of very few cells by more.
POCKET_STEP = (0.15, 0.9)
SMALL_POCKET = 3


def longest_step(moment: Moment, flows: Flows) -> float:
    """How long these flows may last, in seconds per Pa·s of viscosity; inf when nothing moves."""
    filling, draining = np.flatnonzero(flows.into > 0), np.flatnonzero(flows.into < 0)
    limit = _until_air_is_gone(moment.plane, moment.air, flows)
    if filling.size:
        limit = min(limit, _while_filling(moment, flows, filling))
    if draining.size:
        size = moment.plane.volume_m3.flat[draining]
        left = (moment.inside.fill.flat[draining] + TOO_MUCH[0]) * size
        limit = min(limit, float((left / -flows.into.flat[draining]).min()))
    return limit


def _while_filling(moment: Moment, flows: Flows, filling: Index) -> float:
    """Until enough cells are full, one has too much, or resin shows where a hand can see it."""
    share = moment.inside.fill.flat[filling]
    pace = flows.into.flat[filling] / moment.plane.volume_m3.flat[filling]
    beyond = _beyond(moment.plane, moment.inside, flows, filling)
    most = float(((1 + beyond - share) / pace).min())
    slack = (float(beyond.mean()) - TOO_MUCH[0]) / (TOO_MUCH[1] - TOO_MUCH[0])
    nth = int((BATCH[0] + slack * (BATCH[1] - BATCH[0])) * len(share))
    batch = float(np.partition(np.maximum(1 - share, 0) / pace, nth)[nth])
    shown = moment.setting.stops_at.flat[filling]
    until = np.maximum(MIDDLE - share[shown], 0) / pace[shown]
    return min(max(batch, 0.2 * most), most, float(until.min(initial=np.inf)))


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
        found = pressure_found(plane, air, flows)
        most = np.where(air.volume_m3 > SMALL_POCKET * plane.mean_cell_m3, *POCKET_STEP)
        lost = np.where(found > air.pressure_pa, 1 - air.pressure_pa / found, most)
        share = np.where(air.is_trapped, np.minimum(lost, most), share)
        inflow = np.where(air.is_trapped, np.abs(inflow), inflow)
    losing = inflow > 0
    return float((share[losing] * air.volume_m3[losing] / inflow[losing]).min(initial=np.inf))


def pressure_found(plane: Plane, air: Air, flows: Flows) -> Array:
    """The pressure that the solution finds in each body of air: the mean of its cells."""
    flat, count = air.numbers.ravel(), len(air.volume_m3)
    gauge = (flows.resin_pa - plane.weight_pa + plane.suction_pa).ravel()
    cells = np.maximum(np.bincount(flat, minlength=count), 1)
    pressure: Array = np.bincount(flat, gauge, count) / cells + ATMOSPHERE_PA
    return pressure
