"""A checklist rule judges what was measured against the job's own resin."""

import pytest

from app.curriculum.model import ChecklistItem
from app.curriculum.questions.evaluation import NoValue
from app.curriculum.rules import ValueMissing, check_rule
from app.trade.registry import CALCULATORS

ITEM = ChecklistItem.model_validate(
    {
        "id": "ratio",
        "critical": True,
        "text": {"en": "In tolerance"},
        "rule": "ratio_check(measured_a_ml=sample_a, measured_b_ml=sample_b, "
        "parts_a=resin_parts_a, parts_b=resin_parts_b, tolerance=resin_ratio_tolerance)",
    }
)
RESIN = {"resin_parts_a": 2, "resin_parts_b": 1, "resin_ratio_tolerance": 0.05}


@pytest.mark.parametrize(("b_ml", "within"), [(47.5, True), (52.5, True), (47.4, False)])
def test_the_ratio_sample_of_the_worked_example(b_ml, within):
    """Reference: usual specifications, 2:1 at ±5 % on B: with A 100 mL, 47.5–52.5 mL passes."""
    result = check_rule(ITEM, {**RESIN, "sample_a": 100, "sample_b": b_ml}, CALCULATORS)
    assert result.is_within is within


def test_a_value_not_yet_typed_is_named():
    with pytest.raises(ValueMissing) as missing:
        check_rule(ITEM, {**RESIN, "sample_a": 100, "sample_b": None}, CALCULATORS)
    assert missing.value.names == ("sample_b",)


def test_numbers_the_calculator_refuses_are_told():
    with pytest.raises(NoValue, match="measured_a_ml"):
        check_rule(ITEM, {**RESIN, "sample_a": -100, "sample_b": 50}, CALCULATORS)


def test_an_item_without_a_rule_has_no_result():
    assert check_rule(ITEM.model_copy(update={"rule": None}), {}, CALCULATORS) is None
