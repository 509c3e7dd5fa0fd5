"""PURE. A checklist item's rule: one calculator called with what was measured and the job's values.

The result has `is_within`; the trainer sees it while the values are typed.
"""

from __future__ import annotations

import ast
from collections.abc import Mapping
from typing import Any

from app.curriculum.model import ChecklistItem
from app.curriculum.questions.evaluation import evaluate
from app.curriculum.questions.formula import (
    Calculators,
    Formula,
    FormulaRefused,
    read_formula,
    result_fields,
)

JOB_NAMES = frozenset(
    {
        "job_length_mm",
        "job_depth_mm",
        "job_thickness_mm",
        "job_width_mm",
        "job_spacing_mm",
        "job_port_kind",
        "resin_parts_a",
        "resin_parts_b",
        "resin_ratio_tolerance",
        "resin_density_a_g_per_ml",
        "resin_density_b_g_per_ml",
        "resin_viscosity_pa_s",
        "resin_pot_life_min",
        "resin_pot_life_reference_c",
        "resin_min_temperature_c",
        "resin_max_temperature_c",
        "resin_max_pressure_mpa",
    }
)
"""What a rule may use beside its own measures: the job's crack and the product data sheet."""


class ValueMissing(ValueError):
    """A rule cannot be worked out yet: `names` have no value."""

    def __init__(self, names: tuple[str, ...]) -> None:
        super().__init__(f"no value yet for: {', '.join(names)}")
        self.names = names


def read_rule(text: str, calculators: Calculators) -> Formula:
    """The rule, checked to be one call whose result has `is_within`; raises FormulaRefused."""
    formula = read_formula(text, calculators)
    call = formula.tree
    if not isinstance(call, ast.Call) or not isinstance(call.func, ast.Name):
        raise FormulaRefused(text, 1, "a rule is one call of a calculator")
    if "is_within" not in result_fields(calculators[call.func.id]):
        raise FormulaRefused(text, 1, f"{call.func.id} gives no is_within")
    return formula


def check_rule(item: ChecklistItem, values: Mapping[str, Any], calculators: Calculators) -> Any:
    """The calculator's result for the item's rule, with `is_within`; None where there is no rule.

    `values` by name in base units: the item's measures and JOB_NAMES; None is no value. Raises
    ValueMissing while one is missing, NoValue where the calculator refuses the numbers.
    """
    if item.rule is None:
        return None
    formula = read_rule(item.rule, calculators)
    missing = tuple(sorted(name for name in formula.names if values.get(name) is None))
    if missing:
        raise ValueMissing(missing)
    return evaluate(formula, values, calculators)
