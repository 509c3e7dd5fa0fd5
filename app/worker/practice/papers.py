"""What is kept of a run's acts, and how it is read again. Pure: no Flask, no database, no numpy."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from app.trade.filling.actions import Decision
from app.worker.practice.acts import Act
from app.worker.practice.setup import UnknownVersion

VERSION = 1
ML_PER_M3 = 1e6


@dataclass(frozen=True, slots=True)
class Happened:
    """An event of the model as it is kept; value as the model gives it."""

    kind: str
    at_s: float
    number: int = 0
    value: float = 0


@dataclass(frozen=True, slots=True)
class Done:
    """One act with what the model was told and what came of it.

    filled: share of the crack filled after it, for the opened wall only.
    """

    act: Act
    decisions: tuple[Decision, ...]
    from_s: float
    to_s: float
    events: tuple[Happened, ...]
    filled: float
    used_ml: float
    set_pa: float
    showing: tuple[int, ...]  # open ports with resin at them, after the act


@dataclass(frozen=True, slots=True)
class WallNow:
    """What a hand at the wall can know now; the fields of the model's Seen."""

    time_s: float
    gauge_pa: float
    set_pa: float
    flow_m3_per_s: float
    used_m3: float
    hose_at: int
    is_valve_open: bool
    capped: tuple[int, ...]
    showing: tuple[int, ...]
    leaking: tuple[int, ...]
    is_gelled: bool

    @property
    def used_ml(self) -> float:
        """Resin that has left the pump, mL."""
        return self.used_m3 * ML_PER_M3


@dataclass(frozen=True, slots=True)
class Papers:
    """All acts of a run in order, and the wall after the last."""

    done: tuple[Done, ...]
    now: WallNow

    @property
    def decisions(self) -> tuple[Decision, ...]:
        """Every decision in order, as the model needs them."""
        return tuple(decision for one in self.done for decision in one.decisions)

    def with_act(self, done: Done, now: WallNow) -> "Papers":
        """These papers with one act more."""
        return Papers((*self.done, done), now)


def fresh_papers(set_pa: float) -> Papers:
    """A wall that nobody has touched: every port open, the hose on none, the valve shut."""
    return Papers((), WallNow(0.0, 0.0, set_pa, 0.0, 0.0, 0, False, (), (), (), False))


def as_json(papers: Papers) -> dict[str, Any]:
    """The papers as they are kept."""
    return {
        "version": VERSION,
        "now": asdict(papers.now),
        "acts": [_done_json(one) for one in papers.done],
    }


def papers_from(kept: dict[str, Any]) -> Papers:
    """The papers that were kept. Errors: UnknownVersion."""
    if kept.get("version") != VERSION:
        raise UnknownVersion(f"acts version {kept.get('version')!r}")
    now = {name: _frozen(value) for name, value in kept["now"].items()}
    return Papers(tuple(_done_from(one) for one in kept["acts"]), WallNow(**now))


def _done_json(one: Done) -> dict[str, Any]:
    return {
        "act": [one.act.name, one.act.port],
        "do": [[d.act, d.number, d.amount, d.until] for d in one.decisions],
        "s": [one.from_s, one.to_s],
        "events": [[e.kind, e.at_s, e.number, e.value] for e in one.events],
        "filled": one.filled,
        "used_ml": one.used_ml,
        "set_pa": one.set_pa,
        "showing": list(one.showing),
    }


def _done_from(kept: dict[str, Any]) -> Done:
    return Done(
        act=Act(*kept["act"]),
        decisions=tuple(Decision(*one) for one in kept["do"]),
        from_s=kept["s"][0],
        to_s=kept["s"][1],
        events=tuple(Happened(*one) for one in kept["events"]),
        filled=kept["filled"],
        used_ml=kept["used_ml"],
        set_pa=kept["set_pa"],
        showing=tuple(kept["showing"]),
    )


def _frozen(value: Any) -> Any:
    return tuple(value) if isinstance(value, Sequence) and not isinstance(value, str) else value
