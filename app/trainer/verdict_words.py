"""A verdict ready for the page: numbers in the unit they were typed in, and what to do next."""

from dataclasses import dataclass
from fractions import Fraction

from flask_babel import gettext as _

from app.curriculum.model import ChecklistItem, Module
from app.trade.units import Unit
from app.trainer.numbers import in_typed_unit, unit_typed
from app.trainer.repairs.judging import Open, Verdict
from app.trainer.repairs.papers import Papers
from app.trainer.words import sheet_value
from app.web.who import choice


@dataclass(frozen=True, slots=True)
class Told:
    """What the limits macro takes, and sentences under it. `missing`: why nothing was judged."""

    label: str = ""
    value: float = 0
    low: float | None = None
    high: float | None = None
    unit: str = ""
    is_within: bool | None = None
    sentence: str = ""
    missing: tuple[str, ...] = ()
    is_sheet_open: bool = False


def told(papers: Papers, module: Module, item: ChecklistItem) -> Told | None:
    """The verdict of an item, ready to print; None where there is nothing to judge."""
    verdict = papers.verdict(module, item)
    if verdict is None:
        return None
    labels = {m.id: m.label.in_language(choice("language")) for m in item.measures}
    if isinstance(verdict, Open):
        return Told(
            missing=tuple(labels.get(name) or sheet_value(name) for name in verdict.missing),
            is_sheet_open=any(name.startswith("resin_") for name in verdict.missing),
        )
    measure = next(m for m in item.measures if m.id == verdict.measure_id)
    typed = papers.measured[module.id, item.id][measure.id].typed
    unit = unit_typed(typed, measure.quantity, measure.unit)
    return Told(
        label=labels[measure.id],
        value=in_typed_unit(verdict.value, unit),
        low=_as(verdict.low, unit),
        high=_as(verdict.high, unit),
        unit=unit.sign,
        is_within=verdict.is_within,
        sentence=_next(verdict, unit),
    )


def _as(value: Fraction | None, unit: Unit) -> float | None:
    return None if value is None else in_typed_unit(value, unit)


def _next(verdict: Verdict, unit: Unit) -> str:
    if verdict.is_within:
        return ""
    if verdict.side_long and verdict.long_by is not None:
        return _(
            "Side %(side)s is long by %(much)s. Stop, find the cause, put it right, then catch "
            "the sample again.",
            side=verdict.side_long,
            much=f"{in_typed_unit(verdict.long_by, unit):.3g} {unit.sign}",
        )
    return _("Stop, find the cause and put it right before going on.")
