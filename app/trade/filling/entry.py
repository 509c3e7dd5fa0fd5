"""Air that gets in: where resin pulls away from an opening, the cell opens; nothing is sucked in.

An opening lets resin out, never in. Where the solution would draw resin in, either the pull beats
the capillary suction that holds the resin, and the cell opens to the air, or the meniscus holds,
and the opening is shut for the step. Each answer may change the other openings: solve again.
"""

from dataclasses import replace

import numpy as np

from app.trade.filling.inside import ATMOSPHERE_PA
from app.trade.filling.moment import Moment
from app.trade.filling.pressure import Flows, find_flows
from app.trade.filling.system import Bench

# Openings are settled in one or two rounds; beyond this many all that still draw in are shut.
ROUNDS = 6


def settle_openings(
    bench: Bench, moment: Moment, viscosity_pa_s: float, time_s: float
) -> tuple[Flows, Moment]:
    """The flows with every opening letting out or shut, and the moment as it then is."""
    inside, plane = moment.inside, moment.plane
    opened = np.zeros(inside.fill.shape, dtype=bool)
    for attempt in range(ROUNDS):
        flows = find_flows(bench, moment, viscosity_pa_s, time_s)
        drawn = flows.out < 0
        if not (attempt or drawn.any()):
            break  # as nearly always
        refilled = opened & (flows.into >= 0)
        if not (drawn.any() or refilled.any()):
            break
        pulled = flows.resin_pa - plane.weight_pa < -plane.suction_pa - 1e-6
        opens = drawn & pulled & (attempt == 0)
        inside.is_full[opens] = False
        inside.air_pa[opens] = ATMOSPHERE_PA
        inside.is_full[refilled] = True
        opened = (opened | opens) & ~refilled
        shut = (drawn & ~opens) | refilled
        outlet = np.where(shut, 0, moment.setting.outlet_m3)
        moment = moment.with_other_openings(replace(moment.setting, outlet_m3=outlet))
    return flows, moment
