"""The checklists: few critical items, and rules that can be worked out."""

from collections import Counter

from app.curriculum.rules import JOB_NAMES, read_rule
from app.trade.registry import CALCULATORS


def items(curriculum):
    return [
        (module.id, item) for module in curriculum.modules.values() for item in module.checklist
    ]


def test_the_critical_list_is_short(curriculum):
    """Eight items at 98 % each are all done only 85 % of the time: 0.98⁸ = 0.851."""
    critical = Counter(module for module, item in items(curriculum) if item.critical)
    assert set(critical) == set(curriculum.modules)
    assert max(critical.values()) <= 2
    assert 8 <= sum(critical.values()) <= 12


def test_every_rule_uses_what_is_measured_and_the_jobs_values(curriculum):
    rules = [item for _, item in items(curriculum) if item.rule]
    assert len(rules) >= 5
    for item in rules:
        names = read_rule(item.rule, CALCULATORS).names
        measured = {measure.id for measure in item.measures}
        assert measured <= names <= measured | JOB_NAMES, item.id


def test_the_port_log_is_asked_for_once_in_injection_order(curriculum):
    assert [module for module, item in items(curriculum) if item.log] == ["injection-order"]


def test_measure_names_are_told_apart_within_a_module(curriculum):
    for module in curriculum.modules.values():
        names = [measure.id for item in module.checklist for measure in item.measures]
        assert len(names) == len(set(names)), module.id
