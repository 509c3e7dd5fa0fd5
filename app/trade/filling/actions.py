"""Decisions that go into the model, events that come out of it."""

from dataclasses import dataclass
from typing import Final

from app.trade.calculator import Input
from app.trade.errors import NotAChoice, Refusal
from app.trade.filling.supply import PRESSURE

ACTS: Final = (*("move-to", "pump", "close", "cap", "uncap", "patch", "pressure", "wait", "watch"),)
KINDS: Final = (
    *("resin-at-port", "leak-at-pinhole", "leak-at-back", "port-over-limit"),
    *("pressure-limit", "air-trapped", "refusal", "gel"),
)
# What a hand at the wall can see or read from the gauge. It cannot see the back, nor air inside.
SEEN: Final = frozenset(
    ("resin-at-port", "leak-at-pinhole", "port-over-limit", "pressure-limit", "refusal", "gel")
)
LONGEST_WAIT_S: Final = 86_400.0
NUMBER = Input("number", "count", 0, 10_000, "count", says="port or pinhole, from 1; 0 for any")
TIME = Input("amount", "s", 0, LONGEST_WAIT_S, says="how long at most")
UNTIL = ("", *sorted(SEEN))


class NoHose(Refusal):
    """The valve cannot open: the hose is on no port."""

    template = "The hose is on no port. Move it to a port first."


@dataclass(frozen=True, slots=True)
class Decision:
    """One thing a hand does. Made by the functions below; plain enough to store as it is.

    number: the port (or, for "patch", the pinhole); amount: pascals or seconds; until: for
    "watch", the kind of event waited for, "" for any that can be seen.
    """

    act: str
    number: int = 0
    amount: float = 0
    until: str = ""

    def __post_init__(self) -> None:
        if self.act not in ACTS:
            raise NotAChoice("act", self.act, ACTS)
        if self.until not in UNTIL:
            raise NotAChoice("until", self.until, UNTIL)
        NUMBER.check(self.number)
        (PRESSURE if self.act == "pressure" else TIME).check(self.amount)


def move_to(port: int) -> Decision:
    """Shut the valve, take the hose off its port, uncap this one and hook up to it.

    The port left behind stays open unless it was capped before.
    """
    return Decision("move-to", port)


def pump() -> Decision:
    """Open the valve at the port where the hose is."""
    return Decision("pump")


def close() -> Decision:
    """Shut the valve. The hose stays on and holds the port shut."""
    return Decision("close")


def cap(port: int) -> Decision:
    """Cap a port; if the hose is on it, the valve is shut and the hose taken off first."""
    return Decision("cap", port)


def uncap(port: int) -> Decision:
    """Take the cap off a port again."""
    return Decision("uncap", port)


def patch(pinhole: int) -> Decision:
    """Seal a pinhole. Waiting until it holds is a decision of its own."""
    return Decision("patch", pinhole)


def set_pressure(pressure_pa: float) -> Decision:
    """Set the pump to another pressure."""
    return Decision("pressure", amount=pressure_pa)


def wait(time_s: float) -> Decision:
    """Let this time pass, whatever happens."""
    return Decision("wait", amount=time_s)


def watch(time_s: float, until: str = "", port: int = 0) -> Decision:
    """Wait, at most this long, for an event that can be seen: any, of one kind, or at one port."""
    return Decision("watch", port, time_s, until)


@dataclass(frozen=True, slots=True)
class Event:
    """Something that happened: when, at which port or pinhole, and a value where one belongs.

    resin-at-port, leak-at-pinhole: resin shows there. leak-at-back: it runs out behind; value is
    the place along the crack, m. port-over-limit, pressure-limit: the pressure, Pa, at the port,
    or when the pump can no longer deliver its flow. air-trapped: a pocket of value m³ is cut off.
    refusal: value is the flow, m³/s. gel: the end.
    """

    kind: str
    at_s: float
    number: int = 0
    value: float = 0

    @property
    def is_seen(self) -> bool:
        """Can a hand at the wall notice it?"""
        return self.kind in SEEN
