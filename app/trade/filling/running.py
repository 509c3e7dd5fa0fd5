"""A whole run: every decision with what it did, and how the crack looks at the end."""

from collections.abc import Sequence
from dataclasses import dataclass

from app.trade.filling.actions import Decision, Event
from app.trade.filling.crack import Crack
from app.trade.filling.filling import Filling
from app.trade.filling.state import ArrivalMap, Behind, Seen


@dataclass(frozen=True, slots=True)
class Outcome:
    """One decision and what it did: from when to when, events, shares filled, resin used so far."""

    decision: Decision
    from_s: float
    to_s: float
    events: tuple[Event, ...]
    filled_before: float
    filled_after: float
    used_m3: float


@dataclass(frozen=True, slots=True)
class Result:
    """A finished run."""

    outcomes: tuple[Outcome, ...]
    seen: Seen
    behind: Behind
    arrival_map: ArrivalMap

    @property
    def events(self) -> tuple[Event, ...]:
        """Everything that happened, in order."""
        return tuple(event for outcome in self.outcomes for event in outcome.events)


def run(crack: Crack, decisions: Sequence[Decision]) -> Result:
    """Inject a crack by a list of decisions.

    Inputs:
        crack: see Crack
        decisions: made by move_to, pump, close, cap, uncap, patch, set_pressure, wait, watch
    Result: Result(outcomes, seen, behind, arrival_map)
    Errors: OutOfRange, NotAChoice, NotListed, NoHose
    Source: cubic-law, straight-front, radial-front, viscosity-first-order, capillary-rise,
        boyle, port-in-a-grid
    Example: see tests/trade/filling.
    """
    filling = Filling(crack)
    return finish(filling, [outcome_of(filling, decision) for decision in decisions])


def outcome_of(filling: Filling, decision: Decision) -> Outcome:
    """Apply one decision and note what it did."""
    before = filling.behind
    events = filling.apply(decision)
    after = filling.behind
    return Outcome(
        decision,
        before.time_s,
        after.time_s,
        events,
        before.filled_share,
        after.filled_share,
        float(f"{after.used_m3:.6g}"),
    )


def finish(filling: Filling, outcomes: Sequence[Outcome]) -> Result:
    """The result of a run that was driven step by step."""
    return Result(tuple(outcomes), filling.seen, filling.behind, filling.arrival_map)
