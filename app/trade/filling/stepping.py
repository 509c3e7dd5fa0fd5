"""One step of the flow: find the air, solve, let air in where resin pulls away, move the front."""

from dataclasses import dataclass

import numpy as np

from app.trade.filling.air import Air, find_air
from app.trade.filling.arrays import Array
from app.trade.filling.entry import settle_openings
from app.trade.filling.front import advance
from app.trade.filling.inside import Inside, Setting
from app.trade.filling.moment import Moment
from app.trade.filling.pressure import Flows
from app.trade.filling.step_length import longest_step
from app.trade.filling.supply import Resin
from app.trade.filling.system import Bench
from app.trade.filling.window import Windows
from app.trade.viscosity import clock_time, fluid_time, viscosity_after

# No step is shorter, in seconds of resin that does not thicken; what overshoots is passed on.
SHORTEST_S = 1e-6
# While the pump sets the flow, the viscosity grows by no more than this share in a step.
MOST_GROWTH = 0.05
# A pocket loses no more than about this share of its overpressure in a step.
MOST_LOSS = 0.1
# A step may be this much longer than the last while pockets give way.
LENGTHEN = 2.5
# Pockets were given so much more time than the step turns out to last that they yielded too little.
TOO_LONG = 0.4


@dataclass(slots=True)
class Pace:
    """How long the last step was: what pockets are given to yield in the next."""

    last_s: float = 1.0


@dataclass(frozen=True, slots=True)
class Step:
    """What one step did. Volumes and rates are real ones here: m³ and m³/s.

    out_m3: from each cell into the open air.
    """

    air: Air
    time_s: float
    pumped_m3: float
    out_m3: Array
    flow_m3_per_s: float
    port_pa: float
    is_held_back: bool


def take_step(
    bench: Bench,
    windows: Windows,
    inside: Inside,
    setting: Setting,
    resin: Resin,
    pace: Pace,
    at_s: float,
    most_s: float,
) -> Step:
    """Let the resin flow from at_s on, as long as the front allows, at most most_s."""
    viscosity = viscosity_after(resin.viscosity_pa_s, at_s + resin.age_s, resin.growth_per_min)
    air = find_air(windows.plane, inside, setting.is_vent)
    window = windows.find(inside, setting, air)
    moment = Moment(windows.plane, inside, setting, air).part(windows.part(*window), window)
    yielding = min(LENGTHEN * pace.last_s, max(most_s, SHORTEST_S))
    flows, moment, limit = _try(bench, moment, viscosity, yielding)
    if limit < TOO_LONG * yielding and windows.has_big_pocket(air):
        flows, moment, limit = _try(bench, moment, viscosity, max(limit, SHORTEST_S))
    felt, time_s = _lasts(limit, resin, flows, most_s)
    pace.last_s = felt
    lasted = felt / viscosity
    advance(moment, flows, lasted, at_s, time_s)
    out = np.zeros(windows.plane.width_m.shape)
    out[slice(*window)] = flows.out * lasted
    return Step(
        *(air, time_s, flows.pumped * lasted, out),
        *(flows.pumped / viscosity, flows.port_pa, flows.is_held_back),
    )


def _try(
    bench: Bench, moment: Moment, viscosity_pa_s: float, yielding_s: float
) -> tuple[Flows, Moment, float]:
    """The flows if pockets have this long to yield, and how long they may then last."""
    flows, moment = settle_openings(bench, moment, viscosity_pa_s, yielding_s)
    limit = longest_step(moment, flows) * viscosity_pa_s
    if moment.air.is_trapped.any():
        limit = min(limit, yielding_s)
        if moment.setting.air_loss_per_s:
            limit = min(limit, MOST_LOSS / moment.setting.air_loss_per_s)
    return flows, moment, limit


def _lasts(limit: float, resin: Resin, flows: Flows, most_s: float) -> tuple[float, float]:
    """How long a step lasts: for the resin (seconds at its viscosity now) and by the clock.

    Under a set pressure flows fade as the viscosity grows, so the resin feels less time than the
    clock shows (viscosity.py); under a set flow they are the same.
    """
    growth = resin.growth_per_min if flows.is_held_back else 0.0
    if not flows.is_held_back and resin.growth_per_min:
        limit = min(limit, MOST_GROWTH * 60 / resin.growth_per_min)
    whole = fluid_time(most_s, growth)
    felt = max(limit, SHORTEST_S)
    if felt >= whole:
        return whole, most_s
    return felt, min(clock_time(felt, growth) or most_s, most_s)
