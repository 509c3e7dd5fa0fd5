"""“Is injection right?” in words: the answer, its reasons, and each source's limit of width."""

from dataclasses import dataclass

from flask_babel import gettext as _

from app.curriculum.model import Curriculum, Source
from app.trade.crack_width import WidthLimit, WidthLimits
from app.trade.repair_choice import COLDEST_C, Reason, RepairChoice
from app.trainer.words import shown


@dataclass(frozen=True, slots=True)
class ReasonLine:
    """One reason with its source."""

    weight: str  # decides | doubt | note
    says: str
    source_id: str
    source: Source


@dataclass(frozen=True, slots=True)
class LimitLine:
    """What one source says of this width."""

    says: str
    limit: str
    is_met: bool
    source_id: str
    source: Source


def answer_words(choice: str) -> str:
    """The answer as a sentence."""
    return {
        "inject": _("The sources lead to injection."),
        "inject-with-added-reinforcement": _(
            "The sources lead to injection with reinforcement added."
        ),
        "seal-flexibly": _("The sources lead to a flexible seal, not to injection."),
        "not-by-this-method": _("The sources do not lead to injection."),
    }[choice]


def limit_lines(limits: WidthLimits, curriculum: Curriculum) -> list[LimitLine]:
    """Every source's limit, side by side."""
    return [
        LimitLine(
            _limit_words(limit),
            shown(limit.limit_mm, "length"),
            limit.is_met,
            limit.source,
            curriculum.source(limit.source),
        )
        for limit in limits.limits
    ]


def _limit_words(limit: WidthLimit) -> str:
    return {
        "can be bonded from here": _("can be bonded from here"),
        "smallest for load-bearing epoxy": _("smallest for load-bearing epoxy"),
        "the resin must still enter here": _("the resin must still enter here"),
        "below this often hard to fill": _("below this often hard to fill"),
        "inject above this": _("inject above this"),
    }.get(limit.says, limit.says)


def reason_lines(
    found: RepairChoice, limits: WidthLimits, curriculum: Curriculum
) -> list[ReasonLine]:
    """Every reason in its order, its numbers in the reader's units."""
    unmet = [limit for limit in limits.unmet if limits.met]
    lines: list[ReasonLine] = []
    for reason in found.reasons:
        limit = next((one for one in unmet if _is_of(reason, one)), None)
        says = _told(reason) if limit is None else _narrow(limit)
        lines.append(
            ReasonLine(reason.weight, says, reason.source, curriculum.source(reason.source))
        )
    return lines


def _is_of(reason: Reason, limit: WidthLimit) -> bool:
    is_same = reason.source == limit.source and reason.says.startswith(limit.says)
    return reason.weight == "doubt" and is_same


def _narrow(limit: WidthLimit) -> str:
    return f"{_limit_words(limit)}: {shown(limit.limit_mm, 'length')}"


def _told(reason: Reason) -> str:
    if reason.weight == "doubt" and reason.source in COLDEST_C:
        least = shown(COLDEST_C[reason.source], "temperature")
        return _("This source asks for %(least)s or warmer.", least=least)
    return _(reason.says)
