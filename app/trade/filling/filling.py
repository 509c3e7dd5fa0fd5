"""A crack being injected: decisions in, events out, and what is inside at any time."""

import numpy as np

from app.trade.filling.actions import SEEN, Decision, Event
from app.trade.filling.crack import Crack
from app.trade.filling.hands import do
from app.trade.filling.inside import Inside, Setting
from app.trade.filling.outside import WAYS_OUT, Outside
from app.trade.filling.plane import lay_out
from app.trade.filling.state import (
    ArrivalMap,
    Behind,
    Seen,
    arrival_map,
    pockets_of,
    rounded,
    share_by_depth,
)
from app.trade.filling.stepping import Pace, Step, take_step
from app.trade.filling.system import Bench
from app.trade.filling.telling import DECIMALS, Teller
from app.trade.filling.window import Windows


class Filling:
    """One practice run. Starts empty: every port open, the hose on none, the valve shut.

    The same crack and decisions give the same events, always. Asking `seen`, `behind` or
    `arrival_map` changes nothing.
    """

    def __init__(self, crack: Crack) -> None:
        self.crack = crack
        self.time_s = 0.0
        self._gels_at_s = max(crack.resin.gel_time_s - crack.resin.age_s, 0.0)
        self._plane = lay_out(crack)
        self._inside = Inside.empty(self._plane)
        self._outside = Outside(crack, self._plane)
        self._teller = Teller(self._plane)
        self._bench = Bench(self._plane)
        self._windows = Windows(self._plane)
        self._pace = Pace()
        self._used_m3 = 0.0
        self._out_m3 = dict.fromkeys(WAYS_OUT, 0.0)
        self._last: Step | None = None
        self._setting: Setting | None = None  # until a hand or an event changes it

    @property
    def is_gelled(self) -> bool:
        """Nothing flows any more."""
        return self.time_s >= self._gels_at_s

    def apply(self, decision: Decision) -> tuple[Event, ...]:
        """Do one thing, or let time pass; what happened meanwhile.

        Errors: OutOfRange for a port or pinhole that is not there; NoHose to open a valve on none.
        """
        if decision.act in ("wait", "watch"):
            return tuple(self._let_pass(decision))
        do(decision, self._outside, self._teller)
        self._outside.has_changed()
        self._setting = None
        if decision.act == "move-to" or not self._outside.hose_at:
            self._last = None
        return ()

    def _let_pass(self, decision: Decision) -> list[Event]:
        end_s = min(self.time_s + decision.amount, self._gels_at_s)
        found: list[Event] = []
        if self._shows_already(decision):
            return found
        while self.time_s < end_s:
            events = self._step(end_s)
            found += events
            if decision.act == "watch" and any(_ends(decision, event) for event in events):
                return found
        if self.is_gelled and ("gel", 0) not in self._teller.told:
            self._teller.told.add(("gel", 0))
            found.append(Event("gel", round(self.time_s, DECIMALS)))
        return found

    def _shows_already(self, decision: Decision) -> bool:
        is_for_port = decision.act == "watch" and decision.until == "resin-at-port"
        return is_for_port and decision.number in self._outside.wet_ports(self._inside)

    def _step(self, end_s: float) -> list[Event]:
        if self._setting is None:
            self._setting = self._outside.setting(self._outside.unseen(self._teller.told))
        setting = self._setting
        step = take_step(
            self._bench,
            self._windows,
            self._inside,
            setting,
            self.crack.resin,
            self._pace,
            self.time_s,
            end_s - self.time_s,
        )
        at_s = self.time_s + step.time_s
        self.time_s = end_s if end_s - at_s < 1e-9 * end_s else at_s
        self._used_m3 += step.pumped_m3
        self._add_up(step)
        self._last = step
        events = self._teller.notice(self._inside, self._outside, setting, step, self.time_s)
        if events:
            self._setting = None
        return events

    def _add_up(self, step: Step) -> None:
        """Which way out the resin took that left the crack."""
        if not step.out_m3.any():
            return
        cells = np.nonzero(step.out_m3)
        outlets = self._outside.outlets()
        for way in WAYS_OUT:
            share = outlets[way][cells] / outlets["all"][cells]
            self._out_m3[way] += float((share * step.out_m3[cells]).sum())

    @property
    def seen(self) -> Seen:
        """What a hand at the wall can know now; gauge and flow as of the last step."""
        outside, last = self._outside, self._last
        flow = last.flow_m3_per_s if last and outside.is_valve_open and not self.is_gelled else 0.0
        return Seen(
            round(self.time_s, DECIMALS),
            rounded(max(last.port_pa, 0.0)) if last else 0.0,
            outside.pressure_pa,
            rounded(flow),
            rounded(self._used_m3),
            outside.hose_at,
            outside.is_valve_open,
            tuple(sorted(outside.capped)),
            tuple(outside.wet_ports(self._inside)),
            tuple(outside.wet_pinholes(self._inside)),
            self.is_gelled,
        )

    @property
    def behind(self) -> Behind:
        """What is behind the wall now."""
        plane, inside = self._plane, self._inside
        held = float((inside.fill * plane.volume_m3).sum())
        pockets = pockets_of(plane, inside, self._outside.setting(inside.is_full).is_vent)
        return Behind(
            round(self.time_s, DECIMALS),
            rounded(plane.total_m3),
            held,
            round(held / plane.total_m3, 6),
            share_by_depth(plane, inside),
            pockets,
            round(sum(pocket.volume_m3 for pocket in pockets) / plane.total_m3, 6),
            self._used_m3,
            *(self._out_m3[way] for way in WAYS_OUT),
        )

    @property
    def arrival_map(self) -> ArrivalMap:
        """When each part of the crack was filled, up to now."""
        return arrival_map(self._plane, self._inside, self.time_s)


def _ends(decision: Decision, event: Event) -> bool:
    """Does this event end a watch?"""
    if event.kind not in SEEN or decision.until not in ("", event.kind):
        return False
    return decision.number in (0, event.number)
