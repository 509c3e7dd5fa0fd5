"""One step of the flow: find the air, solve, let air in where resin pulls away, move the front."""

from dataclasses import dataclass, replace

import numpy as np

from app.trade.filling.air import Air, find_air
from app.trade.filling.arrays import Array, Mask
from app.trade.filling.front import advance, longest_step
from app.trade.filling.inside import ATMOSPHERE_PA, Inside, Setting
from app.trade.filling.plane import Plane
from app.trade.filling.pressure import Flows, find_flows
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
    plane, inside = windows.part(*window), inside.part(*window)
    setting, part_of_air = setting.part(*window), air.part(*window)
    yielding = min(LENGTHEN * pace.last_s, max(most_s, SHORTEST_S))
    flows, part_of_air = _flows(bench, plane, inside, setting, part_of_air, viscosity, yielding)
    limit = longest_step(plane, inside, setting, part_of_air, flows) * viscosity
    if air.is_trapped.any():
        if limit < TOO_LONG * yielding and windows.has_big_pocket(air):
            yielding = max(limit, SHORTEST_S)
            flows, part_of_air = _flows(
                bench, plane, inside, setting, part_of_air, viscosity, yielding
            )
            limit = longest_step(plane, inside, setting, part_of_air, flows) * viscosity
        limit = min(limit, yielding)
        if setting.air_loss_per_s:
            limit = min(limit, MOST_LOSS / setting.air_loss_per_s)
    felt, time_s = _lasts(limit, resin, flows, most_s)
    pace.last_s = felt
    advance(
        plane, inside, part_of_air, flows, felt / viscosity, at_s, time_s, setting.air_loss_per_s
    )
    lasted = felt / viscosity
    out = np.zeros(windows.plane.width_m.shape)
    out[slice(*window)] = flows.out * lasted
    return Step(
        *(air, time_s, flows.pumped * lasted, out),
        *(flows.pumped / viscosity, flows.port_pa, flows.is_held_back),
    )


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


def _flows(
    bench: Bench,
    plane: Plane,
    inside: Inside,
    setting: Setting,
    air: Air,
    viscosity: float,
    yielding: float,
) -> tuple[Flows, Air]:
    """Solve; where resin would be drawn in from outside, open the cell to air and solve again."""
    flows = find_flows(bench, plane, inside, setting, air, viscosity, yielding)
    pulled = _pulled_dry(plane, flows, setting)
    if not pulled.any():
        return flows, air
    inside.is_full[pulled] = False
    inside.air_pa[pulled] = ATMOSPHERE_PA
    air = _look_again(plane, inside, setting, air)
    flows = find_flows(bench, plane, inside, setting, air, viscosity, yielding)
    back = pulled & (flows.into >= 0)
    inside.is_full[back] = True
    shut = back | _pulled_dry(plane, flows, setting)
    if shut.any():
        sealed = replace(setting, outlet_m3=np.where(shut, 0, setting.outlet_m3))
        air = _look_again(plane, inside, setting, air)
        flows = find_flows(bench, plane, inside, sealed, air, viscosity, yielding)
    return flows, air


def _look_again(plane: Plane, inside: Inside, setting: Setting, air: Air) -> Air:
    """The air of a part after cells at its openings were opened or shut.

    Air that reached beyond the part was open to the outside there; it still is.
    """
    was_open = (air.numbers > 0) & ~air.trapped_cells
    return find_air(plane, inside, setting.is_vent | was_open)


def _pulled_dry(plane: Plane, flows: Flows, setting: Setting) -> Mask:
    """Full cells at an opening whose resin is below the open air's pressure, less its suction."""
    if not (flows.out < 0).any():
        return np.zeros(flows.out.shape, dtype=bool)
    gauge = flows.resin_pa - plane.weight_pa
    dry: Mask = (flows.out < 0) & (gauge < -plane.suction_pa - 1e-6)
    return dry
