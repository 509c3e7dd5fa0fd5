"""Events: noticing what has just happened, once each."""

import numpy as np

from app.trade.filling.actions import Event
from app.trade.filling.inside import REACHED, Inside, Setting
from app.trade.filling.outside import Outside
from app.trade.filling.plane import Plane
from app.trade.filling.stepping import Step

# A pocket smaller than this many cells is not worth an event.
WORTH_TELLING = 3
# The gauge is said to have climbed to the pressure set if the pump delivered its flow so long.
STEADY_S = 2.0
# Times of events, in seconds, are told to this many decimals.
DECIMALS = 4
PUMPING = ("port-over-limit", "pressure-limit", "refusal")


class Teller:
    """Remembers what has been told, so that each thing is told once until it starts anew."""

    def __init__(self, plane: Plane) -> None:
        self.told: set[tuple[str, int]] = set()
        self._was_pocket = np.zeros(plane.width_m.shape, dtype=bool)
        self._worth = WORTH_TELLING * plane.mean_cell_m3
        self._plane = plane
        self._flow_set_s = 0.0

    def forget_pumping(self) -> None:
        """A valve is opened anew: whatever the gauge shows then is news."""
        self.told = {key for key in self.told if key[0] not in PUMPING}
        self._flow_set_s = 0.0

    def forget_port(self, port: int) -> None:
        """A port is open again: resin there is news."""
        self.told.discard(("resin-at-port", port))

    def notice(
        self, inside: Inside, outside: Outside, setting: Setting, step: Step, at_s: float
    ) -> list[Event]:
        """What a step brought that had not been told."""
        began_s, at_s = round(at_s - step.time_s, DECIMALS), round(at_s, DECIMALS)
        found = [
            *self._pumping(outside, step, began_s),
            *self._pockets(step, began_s),
            *self._shown(inside, outside, setting, at_s),
            *self._back(outside, step, at_s),
        ]
        return [event for event in found if self._is_new(event)]

    def _is_new(self, event: Event) -> bool:
        if event.kind == "air-trapped":
            return True
        key = (event.kind, event.number)
        is_new = key not in self.told
        self.told.add(key)
        return is_new

    def _pumping(self, outside: Outside, step: Step, at_s: float) -> list[Event]:
        if not (outside.hose_at and outside.is_valve_open):
            return []
        found = []
        pump, pressure = outside.crack.pump, float(f"{step.port_pa:.6g}")
        if step.port_pa > outside.crack.port_limit_pa:
            found.append(Event("port-over-limit", at_s, outside.hose_at, pressure))
        if step.is_held_back and self._flow_set_s > STEADY_S:
            found.append(Event("pressure-limit", at_s, outside.hose_at, pressure))
        self._flow_set_s += 0.0 if step.is_held_back else step.time_s
        if step.flow_m3_per_s < pump.refusal_m3_per_s:
            found.append(
                Event("refusal", at_s, outside.hose_at, float(f"{step.flow_m3_per_s:.6g}"))
            )
        return found

    def _pockets(self, step: Step, at_s: float) -> list[Event]:
        """Bodies of air that are shut in now and had no part of a pocket before."""
        air = step.air
        if not air.is_trapped.any():
            self._was_pocket[:] = False
            return []
        cells = air.trapped_cells
        known = np.zeros(len(air.volume_m3), dtype=bool)
        known[air.numbers[self._was_pocket]] = True
        self._was_pocket = cells
        fresh = air.is_trapped & ~known & (air.volume_m3 > self._worth)
        return [
            Event("air-trapped", at_s, 0, float(f"{air.volume_m3[number]:.6g}"))
            for number in np.flatnonzero(fresh)
        ]

    def _shown(
        self, inside: Inside, outside: Outside, setting: Setting, at_s: float
    ) -> list[Event]:
        if not (inside.fill[setting.stops_at] >= REACHED).any():
            return []
        ports = [Event("resin-at-port", at_s, number) for number in outside.wet_ports(inside)]
        holes = [Event("leak-at-pinhole", at_s, n) for n in outside.wet_pinholes(inside)]
        return ports + holes

    def _back(self, outside: Outside, step: Step, at_s: float) -> list[Event]:
        """The first resin to run out behind, and where along its strip."""
        if not outside.has_back or ("leak-at-back", 0) in self.told:
            return []
        out = np.where(outside.back > 0, step.out_m3, 0)
        if not (out > 0).any():
            return []
        column = int(out.max(axis=1).argmax())
        for strip, columns in enumerate(self._plane.strips):
            place = np.flatnonzero(columns == column)
            if place.size:
                at_m = (float(place[0]) + 0.5) * self._plane.along_m[strip]
                return [Event("leak-at-back", at_s, 0, float(f"{at_m:.6g}"))]
        return []
