"""Injecting by the book: the order of the lesson, as a hand would follow it from what it sees.

Vertical: the lowest port first, then up; otherwise from one end to the other. Pump until resin
shows at the next port; shut, cap, move there. Resin further on: cap that port and stay; it gets
its turn at the end. A leak: shut, seal it, let the seal harden, go on. The last port, with all
others capped, until the crack refuses.
Sources: injection-lowest-first, injection-end-to-end, injection-overhead, crack-full-holds.
"""

from app.trade.filling.actions import (
    Decision,
    Event,
    cap,
    close,
    move_to,
    patch,
    pump,
    wait,
    watch,
)
from app.trade.filling.crack import Crack
from app.trade.filling.filling import Filling
from app.trade.filling.running import Outcome, Result, finish, outcome_of

# Fast paste on a leak is left this long before pressure comes back on (common practice).
PATCH_HARDENS_S = 300.0
# Nothing shows for so long: the book says stop and think. Here the hand then tries the next port.
GIVES_UP_S = 1200.0
# The last port is kept under pressure at most this long.
HOLDS_S = 300.0


def book_order(crack: Crack) -> tuple[int, ...]:
    """Port numbers in the order of injection: by height if vertical, else outwards from port 1."""
    ports = range(1, len(crack.ports) + 1)
    if crack.orientation == "vertical":
        return tuple(sorted(ports, key=lambda port: (crack.height_of(port), port)))
    return tuple(sorted(ports, key=lambda port: (_way(crack, port), port)))


def _way(crack: Crack, port: int) -> float:
    place = crack.ports[port - 1]
    branch = crack.branches[place.strip - 1].at_m if place.strip else 0.0
    return branch + place.at_m


class _Hand:
    """Somebody who follows the book and writes down every decision."""

    def __init__(self, crack: Crack) -> None:
        self.filling = Filling(crack)
        self.outcomes: list[Outcome] = []

    def do(self, *decisions: Decision) -> tuple[Event, ...]:
        """Apply them one by one; the events of the last."""
        for decision in decisions:
            self.outcomes.append(outcome_of(self.filling, decision))
        return self.outcomes[-1].events

    def pump_until(self, waiting: list[int]) -> list[int]:
        """Pump until resin shows at the first port waiting (none: until refusal), seeing to leaks.

        Ports further on that show first are capped; their numbers.
        """
        until_s = self.filling.time_s + (GIVES_UP_S if waiting else HOLDS_S)
        early: list[int] = []
        while not self.filling.is_gelled and self.filling.time_s < until_s:
            if waiting and waiting[0] in self.filling.seen.showing:
                break
            events = self.do(watch(until_s - self.filling.time_s))
            for port in self._answer(events):
                if port != waiting[0]:
                    self.do(cap(port))
                    early.append(port)
            if not events or any(event.kind == "refusal" for event in events):
                break
        return early

    def _answer(self, events: tuple[Event, ...]) -> list[int]:
        """Seal what leaks; the ports that show."""
        shown = [event.number for event in events if event.kind == "resin-at-port"]
        for event in events:
            if event.kind == "leak-at-pinhole":
                self.do(close(), patch(event.number), wait(PATCH_HARDENS_S), pump())
        return shown


def follow_the_book(crack: Crack) -> Result:
    """Inject a crack by the book; every decision with what it did.

    Inputs:
        crack: see Crack
    Result: Result(outcomes, seen, behind, arrival_map)
    Errors: as for Crack and Filling
    Source: injection-lowest-first, injection-end-to-end, injection-overhead, crack-full-holds
    """
    hand = _Hand(crack)
    waiting = list(book_order(crack))
    passed_by: list[int] = []
    while waiting and not hand.filling.is_gelled:
        port = waiting.pop(0)
        hand.do(move_to(port), pump())
        early = hand.pump_until(waiting)
        passed_by += early
        waiting = [other for other in waiting if other not in early]
        hand.do(close(), cap(port))
    for port in passed_by:
        if not hand.filling.is_gelled:
            hand.do(move_to(port), pump())
            hand.pump_until([])
            hand.do(close(), cap(port))
    return finish(hand.filling, hand.outcomes)


def by_the_book(crack: Crack) -> tuple[Decision, ...]:
    """The decisions of somebody who follows the book: `run` with them gives the same again."""
    return tuple(outcome.decision for outcome in follow_the_book(crack).outcomes)
