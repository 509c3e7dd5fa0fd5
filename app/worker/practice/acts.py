"""PURE. What a trainee's button does, as decisions for the model, and when it is refused.

Moving the hose, shutting and capping take no time in the model; only watching does.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Protocol

from app.trade.errors import NotAChoice, OutOfRange, Refusal
from app.trade.filling.actions import (
    Decision,
    cap,
    close,
    move_to,
    patch,
    pump,
    set_pressure,
    uncap,
    wait,
    watch,
)

# In the order of the buttons on the page.
ACTS: Final = ("pump", "close", "watch", "watch-long", "move", "cap", "uncap", "up", "down", "seal")
WITH_PORT: Final = frozenset(("move", "cap", "uncap"))
WATCH_S, WATCH_LONG_S = 60.0, 300.0
HARDENS_S = 300.0  # fast paste on a leak is left this long (common practice)
PRESSURE_STEP_PA, TOP_PRESSURE_PA = 25_000.0, 500_000.0
MOST_ACTS = 400


class WallSeen(Protocol):
    """What an act needs to know; both what the model says and what was kept of it."""

    @property
    def set_pa(self) -> float: ...
    @property
    def hose_at(self) -> int: ...
    @property
    def is_valve_open(self) -> bool: ...
    @property
    def capped(self) -> Sequence[int]: ...
    @property
    def leaking(self) -> Sequence[int]: ...
    @property
    def is_gelled(self) -> bool: ...


class HasGelled(Refusal):
    """The resin is hard."""

    template = "The resin has gelled. Nothing flows any more. Open the wall and look."


class ValveIsOpen(Refusal):
    """A valve that is open can't be opened, and what needs it shut waits."""

    template = "The valve is open. Shut it first."


class ValveIsShut(Refusal):
    """Shut already."""

    template = "The valve is shut already."


class HoseOnNoPort(Refusal):
    """There is nothing to pump into."""

    template = "The hose is on no port. Choose a port and move the hose there."


class HoseIsThere(Refusal):
    """The hose is at this port already."""

    template = "The hose is on port {port} already."


class PortIsCapped(Refusal):
    """Capped already."""

    template = "Port {port} is capped already."


class PortIsOpen(Refusal):
    """No cap to take off."""

    template = "Port {port} has no cap to take off."


class NothingLeaks(Refusal):
    """There is no leak to seal."""

    template = "You see no leak to seal."


class PressureAtItsEnd(Refusal):
    """The pump can go no further that way."""

    template = "The pump goes no further that way."


class TooManyActs(Refusal):
    """A run that never ends."""

    template = "That is {most} acts. Open the wall and look."


@dataclass(frozen=True, slots=True)
class Act:
    """One press of a button: its name, and the port chosen where it needs one."""

    name: str
    port: int = 0


def decisions_of(act: Act, seen: WallSeen, ports: int) -> tuple[Decision, ...]:
    """What the model is told for one act.

    Errors: NotAChoice for no act of ours, OutOfRange for no port of this crack; the refusals above
    when the act makes no sense now.
    """
    if act.name not in ACTS:
        raise NotAChoice("act", act.name, ACTS)
    if seen.is_gelled:
        raise HasGelled
    if act.name in WITH_PORT and not 1 <= act.port <= ports:
        raise OutOfRange("port", act.port, 1, ports, "")
    match act.name:
        case "pump":
            _check_may_pump(seen)
            return (pump(), watch(WATCH_S))
        case "close":
            if not seen.is_valve_open:
                raise ValveIsShut
            return (close(),)
        case "watch":
            return (watch(WATCH_S),)
        case "watch-long":
            return (watch(WATCH_LONG_S),)
        case "seal":
            return _seal(seen)
        case "up" | "down":
            return (set_pressure(_pressure(act.name, seen.set_pa)),)
    return (_at_port(act, seen),)


def _check_may_pump(seen: WallSeen) -> None:
    if not seen.hose_at:
        raise HoseOnNoPort
    if seen.is_valve_open:
        raise ValveIsOpen


def _seal(seen: WallSeen) -> tuple[Decision, ...]:
    """Paste does not stick where resin runs: the valve first."""
    if not seen.leaking:
        raise NothingLeaks
    if seen.is_valve_open:
        raise ValveIsOpen
    return (*(patch(hole) for hole in seen.leaking), wait(HARDENS_S))


def _pressure(way: str, set_pa: float) -> float:
    wanted = set_pa + (PRESSURE_STEP_PA if way == "up" else -PRESSURE_STEP_PA)
    if not PRESSURE_STEP_PA <= wanted <= TOP_PRESSURE_PA:
        raise PressureAtItsEnd
    return wanted


def _at_port(act: Act, seen: WallSeen) -> Decision:
    if act.name == "move":
        if act.port == seen.hose_at:
            raise HoseIsThere(port=act.port)
        return move_to(act.port)
    if act.name == "cap":
        if act.port in seen.capped:
            raise PortIsCapped(port=act.port)
        return cap(act.port)
    if act.port not in seen.capped:
        raise PortIsOpen(port=act.port)
    return uncap(act.port)
