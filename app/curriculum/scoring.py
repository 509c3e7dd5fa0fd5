"""PURE. Scoring a watched repair: outcomes per checklist item in, passed or not with reasons out.

Sources: Yudkowsky et al. 2014 (critical items beside a cut on the others); Ilgen et al. 2015
(an overall judgement beside the checklist). The cut and the names of the scale are ours.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, get_args

from app.curriculum.model import ChecklistItem

Outcome = Literal["done", "done-when-prompted", "not-done", "not-seen", "does-not-apply"]
Judgement = Literal[
    "trainer-did-it", "needs-guiding", "needs-reminding", "works-safely-alone", "could-show-others"
]
OUTCOMES: tuple[Outcome, ...] = get_args(Outcome)
JUDGEMENTS: tuple[Judgement, ...] = get_args(Judgement)
"""The overall judgement, lowest first."""
LEAST_JUDGEMENT: Judgement = "works-safely-alone"


class NotScorable(ValueError):
    """The observation cannot be scored; the class says why, `item` names the checklist item."""

    def __init__(self, item: str) -> None:
        super().__init__(f"{type(self).__name__}: {item}")
        self.item = item


class OutcomeMissing(NotScorable):
    """An item of the checklist has no outcome."""


class OutcomeUnknown(NotScorable):
    """An outcome, an item or a judgement that does not exist."""


class ReasonMissing(NotScorable):
    """A critical item does not apply and nobody wrote why."""


class NoCriticalItemApplied(NotScorable):
    """Every critical item does not apply: no valid record of a repair."""


@dataclass(frozen=True)
class Seen:
    """What was seen of one item; `rule_met` is None where nothing was measured."""

    outcome: str
    reason: str = ""
    rule_met: bool | None = None


@dataclass(frozen=True)
class Reason:
    """Why a repair did not pass: kind and, where it is about one item, the item."""

    kind: Literal[
        "critical-not-done",
        "critical-out-of-tolerance",
        "critical-not-judged",
        "share-below-cut",
        "judgement-too-low",
    ]
    item: str = ""
    outcome: str = ""


@dataclass(frozen=True)
class Score:
    """The verdict. `share` is of the applicable items that are not critical, None if none."""

    passed: bool
    critical_done: int
    critical_applicable: int
    others_done: int
    others_applicable: int
    reasons: tuple[Reason, ...]

    @property
    def share(self) -> Fraction | None:
        """Share 0–1 of the other applicable items that were done unprompted."""
        if self.others_applicable == 0:
            return None
        return Fraction(self.others_done, self.others_applicable)


def score_observation(
    items: Sequence[ChecklistItem], seen: Mapping[str, Seen], judgement: str, cut: Fraction
) -> Score:
    """Score one watched repair; `cut` is the share 0–1 the other items must reach.

    Passed only if every applicable critical item was done unprompted and, where it has a rule,
    judged to be in tolerance (a limit nobody knows is no pass), the
    share of the others reaches the cut, and the judgement is works-safely-alone or better.
    Not seen and done when prompted do not count as done. Raises a NotScorable.
    """
    _check_complete(items, seen, judgement)
    applicable = [item for item in items if seen[item.id].outcome != "does-not-apply"]
    critical = [item for item in applicable if item.critical]
    others = [item for item in applicable if not item.critical]
    if not critical:
        raise NoCriticalItemApplied("every critical item")
    reasons = [reason for item in critical for reason in _critical_reasons(item, seen[item.id])]
    done = sum(_is_done(seen[item.id]) for item in others)
    if others and Fraction(done, len(others)) < cut:
        reasons.append(Reason("share-below-cut"))
    if _rank(judgement) < _rank(LEAST_JUDGEMENT):
        reasons.append(Reason("judgement-too-low", outcome=judgement))
    critical_done = sum(_is_done(seen[item.id]) for item in critical)
    return Score(not reasons, critical_done, len(critical), done, len(others), tuple(reasons))


def _check_complete(
    items: Sequence[ChecklistItem], seen: Mapping[str, Seen], judgement: str
) -> None:
    if judgement not in JUDGEMENTS:
        raise OutcomeUnknown(judgement)
    known = {item.id for item in items}
    for name in seen:
        if name not in known:
            raise OutcomeUnknown(name)
    for item in items:
        if item.id not in seen:
            raise OutcomeMissing(item.id)
        one = seen[item.id]
        if one.outcome not in OUTCOMES:
            raise OutcomeUnknown(f"{item.id}: {one.outcome}")
        if item.critical and one.outcome == "does-not-apply" and not one.reason.strip():
            raise ReasonMissing(item.id)


def _critical_reasons(item: ChecklistItem, one: Seen) -> list[Reason]:
    if one.outcome != "done":
        return [Reason("critical-not-done", item.id, one.outcome)]
    if one.rule_met is False:
        return [Reason("critical-out-of-tolerance", item.id, one.outcome)]
    if item.rule is not None and one.rule_met is None:
        # Its limit is not known, for example because the data sheet was left open.
        return [Reason("critical-not-judged", item.id, one.outcome)]
    return []


def _is_done(one: Seen) -> bool:
    return one.outcome == "done" and one.rule_met is not False


def _rank(judgement: str) -> int:
    return [str(name) for name in JUDGEMENTS].index(judgement)
