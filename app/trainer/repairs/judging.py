"""What was measured against its limits, by the rule of the checklist item. No Flask here."""

import ast
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from app.curriculum.model import ChecklistItem
from app.curriculum.questions.evaluation import NoValue
from app.curriculum.rules import JOB_NAMES, ValueMissing, check_rule, read_rule
from app.trade.errors import OutOfRange
from app.trade.limits import Limits
from app.trade.port_pressure import PortPressure
from app.trade.ratio import RatioCheck
from app.trade.registry import CALCULATORS
from app.trade.resin import UsedVerdict
from app.trainer.numbers import decimal_text, rounded
from app.workbook.jobs import Job
from app.workbook.resins import Resin

Values = Mapping[str, Fraction | str | None]

# Which argument of a calculator is the one its limits are about; otherwise it is the first.
_ABOUT = {"ratio_check": "measured_b_ml", "pressure_hold": "end_mpa"}


@dataclass(frozen=True, slots=True)
class Verdict:
    """The value a rule is about beside its limits, in base units, and whether it keeps them.

    `side_long` and `long_by` are for a ratio sample: the side there is too much of, and mL of it.
    """

    measure_id: str
    value: Fraction
    low: Fraction | None
    high: Fraction | None
    is_within: bool
    side_long: str = ""
    long_by: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Open:
    """Not judged yet, or not to be judged: the names of the values that are not there."""

    missing: tuple[str, ...]


class NotPossible(ValueError):
    """A measured value no gauge can have shown; `measure_id` says which, with the bounds if any."""

    def __init__(self, measure_id: str, low: float | None, high: float | None) -> None:
        super().__init__(measure_id)
        self.measure_id, self.low, self.high = measure_id, low, high


def job_values(job: Job, resin: Resin) -> dict[str, Fraction | str | None]:
    """What a rule may use beside the measured values; None where the data sheet does not say."""
    found: dict[str, Fraction | str | None] = {}
    for name in sorted(JOB_NAMES):
        kind, field = name.split("_", 1)
        stored = getattr(job, field) if kind == "job" else resin.values.value(field)
        found[name] = stored if isinstance(stored, str) else rounded(stored)
    return found


def judge(
    item: ChecklistItem, measured: Mapping[str, Fraction], given: Values
) -> Verdict | Open | None:
    """Judge an item; None where it has no rule, Open where a value is missing.

    Raises NotPossible for a measured value that the calculator refuses.
    """
    if item.rule is None:
        return None
    try:
        result = check_rule(item, {**given, **measured}, CALCULATORS)
    except ValueMissing as missing:
        return Open(missing.names)
    except NoValue as refused:
        raise _not_possible(item, refused) from refused
    return _verdict(item, about_measure(item), result, measured)


def _verdict(
    item: ChecklistItem, measure_id: str, result: Any, measured: Mapping[str, Fraction]
) -> Verdict:
    value = measured[measure_id]
    if isinstance(result, Limits):
        return Verdict(measure_id, value, _limit(result.low), _limit(result.high), result.is_within)
    if isinstance(result, RatioCheck):
        return Verdict(
            measure_id,
            value,
            _limit(result.b_low_ml),
            _limit(result.b_high_ml),
            result.is_within,
            result.long_side,
            _limit(result.long_by_ml),
        )
    if isinstance(result, PortPressure):
        return Verdict(measure_id, value, None, _limit(result.leaks_from_mpa), result.is_within)
    if isinstance(result, UsedVerdict):
        low, high = result.low * result.computed_ml, result.high * result.computed_ml
        return Verdict(measure_id, value, _limit(low), _limit(high), result.is_within)
    raise TypeError(f"the rule of {item.id} gives {type(result).__name__}, which has no limits")


def _limit(value: Any) -> Fraction | None:
    return None if value is None else Fraction(decimal_text(value))


def about_measure(item: ChecklistItem) -> str:
    """The measure a rule's limits are about."""
    places = measure_places(item)
    call = read_rule(item.rule or "", CALCULATORS).tree
    assert isinstance(call, ast.Call)
    assert isinstance(call.func, ast.Name)
    return places.get(_ABOUT.get(call.func.id, ""), item.measures[0].id)


def measure_places(item: ChecklistItem) -> dict[str, str]:
    """Which measure stands behind which argument, the arguments of inner calls included."""
    own = {measure.id for measure in item.measures}
    tree = read_rule(item.rule or "", CALCULATORS).tree
    keywords = [node for node in ast.walk(tree) if isinstance(node, ast.keyword)]
    return {
        str(keyword.arg): keyword.value.id
        for keyword in reversed(keywords)
        if isinstance(keyword.value, ast.Name) and keyword.value.id in own
    }


def _not_possible(item: ChecklistItem, refused: NoValue) -> NotPossible:
    cause = refused.__cause__
    if isinstance(cause, OutOfRange) and cause.name in measure_places(item):
        return NotPossible(measure_places(item)[cause.name], cause.low, cause.high)
    return NotPossible(about_measure(item), None, None)
