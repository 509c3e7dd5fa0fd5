"""PURE. When a quiz of no fixed length may stop: Wald's sequential test, with its exact odds.

Sources: Wald 1947, Sequential Analysis; Frick 1986 (the same test for mastery decisions).
"""

from __future__ import annotations

from dataclasses import dataclass
from math import log
from typing import Literal

Verdict = Literal["go-on", "pass", "not-yet"]


@dataclass(frozen=True)
class Sequence:
    """The test's parameters: shares 0–1, lengths in answers. Defaults are this project's choice.

    Someone who knows only `weak` should rarely pass, someone who knows `strong` nearly always.
    """

    weak: float = 0.60
    strong: float = 0.90
    alpha: float = 0.05
    beta: float = 0.05
    shortest: int = 8
    longest: int = 25
    right_at_longest: int = 20

    def __post_init__(self) -> None:
        if not 0 < self.weak < self.strong < 1:
            raise ValueError(f"weak {self.weak} must be below strong {self.strong}, both in 0–1")
        if not (0 < self.alpha < 0.5 and 0 < self.beta < 0.5):
            raise ValueError(f"alpha {self.alpha} and beta {self.beta} must lie in 0–0.5")
        if not 1 <= self.shortest <= self.longest:
            raise ValueError(f"shortest {self.shortest} must not be over longest {self.longest}")

    def weight(self, is_right: bool) -> float:
        """What one answer adds to the log-likelihood ratio."""
        if is_right:
            return log(self.strong / self.weak)
        return log((1 - self.strong) / (1 - self.weak))

    def bounds(self) -> tuple[float, float]:
        """The log-likelihood ratio at or below which to refuse, at or above which to pass."""
        return log(self.beta / (1 - self.alpha)), log((1 - self.beta) / self.alpha)


def decide_mastery(
    right: int, answered: int, sequence: Sequence, *, topics_covered: bool = True
) -> Verdict:
    """Pass, not yet or go on after `answered` answers with `right` right.

    `topics_covered`: every must-know topic has been asked; before that there is no stop short
    of the longest. Raises ValueError for counts that cannot be.
    Example: decide_mastery(8, 8, Sequence()) == "pass".
    """
    if not 0 <= right <= answered:
        raise ValueError(f"{right} right of {answered} cannot be")
    if answered >= sequence.longest:
        return "pass" if right >= sequence.right_at_longest else "not-yet"
    if answered < sequence.shortest or not topics_covered:
        return "go-on"
    score = right * sequence.weight(True) + (answered - right) * sequence.weight(False)
    low, high = sequence.bounds()
    if score >= high:
        return "pass"
    return "not-yet" if score <= low else "go-on"


@dataclass(frozen=True)
class Odds:
    """What happens to people who know a given share: chance to pass, mean length in answers."""

    passes: float
    mean_length: float


def exact_odds(knows: float, sequence: Sequence) -> Odds:
    """The exact odds for someone who answers a share `knows` (0–1) of the questions right.

    Walks every (answered, right) state forward; no simulation.
    Example: round(exact_odds(0.6, Sequence()).passes, 4) == 0.0499.
    """
    if not 0 <= knows <= 1:
        raise ValueError(f"the share known must lie in 0–1, not {knows}")
    open_states = {0: 1.0}
    passes = mean_length = 0.0
    for answered in range(1, sequence.longest + 1):
        reached = _one_answer_on(open_states, knows)
        open_states = {}
        for right, chance in reached.items():
            verdict = decide_mastery(right, answered, sequence)
            if verdict == "go-on":
                open_states[right] = chance
                continue
            mean_length += chance * answered
            passes += chance if verdict == "pass" else 0.0
    return Odds(passes, mean_length)


def _one_answer_on(states: dict[int, float], knows: float) -> dict[int, float]:
    reached: dict[int, float] = {}
    for right, chance in states.items():
        reached[right + 1] = reached.get(right + 1, 0.0) + chance * knows
        reached[right] = reached.get(right, 0.0) + chance * (1 - knows)
    return reached
