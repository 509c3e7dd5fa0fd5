"""Flows at one moment: into the front, out of every opening, and through the hose."""

from dataclasses import dataclass, replace

import numpy as np

from app.trade.filling.arrays import Array, Mask
from app.trade.filling.inside import Hose, Inside
from app.trade.filling.moment import Moment
from app.trade.filling.plane import Plane
from app.trade.filling.system import Bench, fill_in


@dataclass(frozen=True, slots=True)
class Flows:
    """All flows are m³/s times the viscosity.

    into: into each cell that is not full, from the resin beside it and from the hose. out: out of
    each full cell into the open air. from_hose: into each cell of its port. pumped: the sum of
    these. port_pa: gauge pressure at the port. is_held_back: the pump's pressure, not its flow,
    sets the pace. resin_pa: pressure plus ρ g h.
    """

    into: Array
    out: Array
    from_hose: Array
    pumped: float
    port_pa: float
    is_held_back: bool
    resin_pa: Array


def find_flows(bench: Bench, moment: Moment, viscosity_pa_s: float, time_s: float) -> Flows:
    """Solve for the pressure and give the flows that follow. time_s: what pockets have to yield.

    A hole drilled across several cells draws nothing out of those that are not full, and while its
    valve is shut it gives them nothing either.
    """
    hose = moment.setting.hose
    give = viscosity_pa_s / time_s
    if hose is None:
        return _flows(bench, moment, give, viscosity_pa_s)
    is_full = moment.inside.is_full[hose.port.cells]
    used = is_full | hose.is_open
    while True:
        port = replace(hose.port, joined_m3=hose.port.joined_m3 * used)
        tried = replace(moment.setting, hose=replace(hose, port=port))
        flows = _flows(bench, replace(moment, setting=tried), give, viscosity_pa_s)
        drawn = used & ~is_full & (flows.from_hose < 0)
        if not drawn.any():
            return flows
        used &= ~drawn


def _flows(bench: Bench, moment: Moment, give: float, viscosity_pa_s: float) -> Flows:
    plane, inside, setting = moment.plane, moment.inside, moment.setting
    solved, known = fill_in(bench, moment, give)
    alone, answer = bench.solve(solved)
    resin = np.where(solved, alone, known)
    pumped, port_pa, is_held_back = 0.0, 0.0, True
    from_hose = np.zeros(0)
    hose = setting.hose
    if hose:
        pumped, mouth_pa, is_held_back = _through_hose(hose, inside, resin, answer, viscosity_pa_s)
        resin = resin + mouth_pa * answer
        port_pa = mouth_pa + _skin(hose, inside) * pumped - hose.port.weight_pa
        from_hose = hose.port.joined_m3 * (mouth_pa - resin[hose.port.cells])
    into = _into_front(plane, inside.is_full, resin)
    if hose:
        into[hose.port.cells] += from_hose * ~inside.is_full[hose.port.cells]
    out = np.where(inside.is_full & solved, setting.outlet_m3 * (resin - plane.weight_pa), 0)
    return Flows(into, out, from_hose, pumped, port_pa, is_held_back, resin)


def _skin(hose: Hose, inside: Inside) -> float:
    is_wet = bool(inside.is_full[hose.port.cells].any())
    return hose.port.skin if is_wet else hose.port.filling_skin


def _through_hose(
    hose: Hose,
    inside: Inside,
    resin: Array,
    answer: Array,
    viscosity_pa_s: float,
) -> tuple[float, float, bool]:
    """What the pump delivers, the pressure behind the skin, and is it the pressure that limits.

    Flow = ease × mouth − back: linear in the mouth's pressure, with the answer to 1 Pa known.
    """
    cells, joined = hose.port.cells, hose.port.joined_m3
    ease = float((joined * (1 - answer[cells])).sum())
    back = float((joined * resin[cells]).sum())
    set_pa = hose.pressure_pa + hose.port.weight_pa
    if ease <= 1e-11 * float(joined.sum()):  # nothing gives way
        last = float(inside.resin_pa[cells].mean())
        return 0.0, set_pa if hose.is_open else last, True
    resistance = max(1 / ease + _skin(hose, inside), 0.2 / ease)
    at_pressure = max((set_pa - back / ease) / resistance, 0.0) if hose.is_open else 0.0
    at_flow = hose.flow_m3_per_s * viscosity_pa_s
    pumped = min(at_pressure, at_flow)
    return pumped, (pumped + back) / ease, at_pressure <= at_flow


def _into_front(plane: Plane, full: Mask, resin: Array) -> Array:
    """Into each cell that is not full, from the full cells beside it."""
    into = np.zeros(full.size)
    flat = full.ravel()
    cells = np.flatnonzero(plane.is_crack.ravel() & ~flat)
    cells = cells[(flat[plane.beside[cells]] & (plane.ease_beside[cells] > 0)).any(axis=1)]
    beside = plane.beside[cells]
    drop = resin.flat[beside] - resin.flat[cells][:, None]
    into[cells] = (plane.ease_beside[cells] * flat[beside] * drop).sum(axis=1)
    return into.reshape(full.shape)
