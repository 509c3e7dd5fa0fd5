"""PURE. Every act of a run held against the order that the lesson gives.

A remark is a mark (yes, no, or "" for neither), a code and the port it is about; pages put it into
words. The lesson: start where its order starts; pump until resin shows at the next port; shut,
cap, move there; cap what shows further on; seal a leak with the valve shut. Sources:
injection-lowest-first, injection-end-to-end, injection-overhead, resin-not-at-next-port.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from app.worker.practice.papers import Done


@dataclass(frozen=True, slots=True)
class Remark:
    """One thing the lesson says about an act. mark: "yes", "no" or ""."""

    mark: str
    code: str
    port: int = 0


@dataclass(slots=True)
class _Wall:
    """What the acts so far have made of the wall, as the hand could know it."""

    order: tuple[int, ...]
    hose: int = 0
    is_open: bool = False
    shown: set[int] = field(default_factory=set)
    capped: set[int] = field(default_factory=set)
    passed_by: set[int] = field(default_factory=set)  # showed early and was capped
    injected: list[int] = field(default_factory=list)
    is_leaking: bool = False

    @property
    def following(self) -> int:
        """The port that the lesson moves to next; 0 when all have had their turn.

        A port that showed early and was capped gets its turn after the others.
        """
        left = [port for port in self.order if port not in self.injected and port != self.hose]
        return next((port for port in left if port not in self.passed_by), left[0] if left else 0)


def remarks_on(done: Sequence[Done], order: tuple[int, ...]) -> list[tuple[Remark, ...]]:
    """The lesson's remarks on each act, in order; an act may have none."""
    wall = _Wall(order)
    found = []
    for one in done:
        found.append(tuple(_remarks(one, wall)))
        _go_on(one, wall)
    return found


def _remarks(one: Done, wall: _Wall) -> list[Remark]:
    found = []
    match one.act.name:
        case "move":
            found = _on_move(one.act.port, wall)
        case "cap":
            found = [_on_cap(one.act.port, wall)]
        case "pump" | "watch" | "watch-long" if wall.is_leaking and (
            wall.is_open or one.act.name == "pump"
        ):
            found = [Remark("no", "pumped-on-leak")]
        case "seal":
            found = [Remark("yes", "sealed")]
        case "up":
            found = [Remark("", "raised")]
    if any(event.kind == "port-over-limit" for event in one.events):
        found.append(Remark("no", "over-limit", wall.hose))
    return found


def _on_move(port: int, wall: _Wall) -> list[Remark]:
    found = []
    if wall.hose and wall.hose not in wall.capped:
        found.append(Remark("no", "left-open", wall.hose))
    expected = wall.following
    if port in wall.injected:
        return [*found, Remark("", "went-back", port)]
    if port != expected:
        return [*found, Remark("no", "not-next", expected)]
    if not wall.injected:
        return [*found, Remark("yes", "starts-right", port)]
    if port in wall.shown:
        return [*found, Remark("yes", "next-right", port)]
    return [*found, Remark("no", "next-dry", port)]


def _on_cap(port: int, wall: _Wall) -> Remark:
    following = wall.following
    if port == wall.hose or port in wall.injected:
        if not following or following in wall.shown:
            return Remark("yes", "cap-right", port)
        return Remark("no", "cap-early", following)
    if port in wall.shown:
        return Remark("yes", "cap-shown", port)
    return Remark("no", "cap-dry", port)


def _go_on(one: Done, wall: _Wall) -> None:
    match one.act.name:
        case "move":
            wall.hose, wall.is_open = one.act.port, False
            wall.passed_by.discard(one.act.port)
            wall.capped.discard(one.act.port)
        case "pump":
            wall.is_open = True
            if wall.hose not in wall.injected:
                wall.injected.append(wall.hose)
        case "close":
            wall.is_open = False
        case "cap":
            wall.capped.add(one.act.port)
            if one.act.port in wall.shown and one.act.port not in wall.injected:
                wall.passed_by.add(one.act.port)
            if one.act.port == wall.hose:
                wall.hose, wall.is_open = 0, False
        case "uncap":
            wall.capped.discard(one.act.port)
        case "seal":
            wall.is_leaking = False
    wall.shown |= set(one.showing)
    wall.shown |= {event.number for event in one.events if event.kind == "resin-at-port"}
    wall.is_leaking |= any(event.kind == "leak-at-pinhole" for event in one.events)
