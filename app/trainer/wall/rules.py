"""A checklist's rules as the phone takes them: trees instead of text, with the inputs' bounds."""

import ast
from typing import Any

from app.curriculum.model import ChecklistItem, Module
from app.curriculum.questions.formula import literal
from app.curriculum.rules import read_rule
from app.trade.registry import CALCULATORS
from app.trainer.numbers import decimal_text
from app.trainer.repairs.judging import about_measure, measure_places

Tree = dict[str, Any]


class NoTree(ValueError):
    """A rule that the phone could not work out; checklists with one do not get this far."""


def rule_data(item: ChecklistItem) -> dict[str, Any] | None:
    """An item's rule: its tree, the measure it is about, and which measure is which input."""
    if item.rule is None:
        return None
    formula = read_rule(item.rule, CALCULATORS)
    return {
        "tree": _tree(item.rule, formula.tree),
        "about": about_measure(item),
        "places": measure_places(item),
    }


def _tree(text: str, node: ast.expr) -> Tree:
    match node:
        case ast.Name(id=name):
            return {"name": name}
        case ast.Constant(value=str() as word):
            return {"text": word}
        case ast.Constant():
            return {"number": decimal_text(literal(text, node))}
        case ast.Attribute(value=ast.Call() as call, attr=field):
            return {**_tree(text, call), "field": field}
        case ast.Call(func=ast.Name(id=name)):
            inputs = {str(one.arg): _tree(text, one.value) for one in node.keywords}
            return {"call": name, "inputs": inputs}
    raise NoTree(f"{text}: {ast.unparse(node)}")


def bounds_of(modules: tuple[Module, ...]) -> dict[str, dict[str, Any]]:
    """The bounds of every input of every calculator that these checklists call."""
    calls = {
        name
        for module in modules
        for item in module.checklist
        if item.rule
        for name in read_rule(item.rule, CALCULATORS).calls
    }
    return {
        name: {
            one.name: {"low": one.low, "high": one.high, "kind": one.kind}
            for one in CALCULATORS[name].inputs
            if one.kind in ("number", "count")
        }
        for name in sorted(calls)
    }
