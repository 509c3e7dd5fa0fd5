"""PURE. A formula that was read, worked out: exact arithmetic, calculators in floating point."""

from __future__ import annotations

import ast
from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from app.curriculum.questions.formula import Calculators, Formula, FormulaRefused, literal


class NoValue(ValueError):
    """The formula is sound but these numbers give no value (division by zero, out of range)."""


def evaluate(formula: Formula, values: Mapping[str, Any], calculators: Calculators) -> Any:
    """The formula's value with `values` for its names (numbers in base units).

    Plain arithmetic stays exact; a calculator's numbers come back as Fractions of the shortest
    decimal that names the same float. Raises NoValue when these numbers give none, KeyError
    for a name without a value.
    Example: evaluate(read_formula("a / 4", {}), {"a": 3}, {}) == Fraction(3, 4).
    """
    return exact(_value(formula, formula.tree, values, calculators))


def exact(value: Any) -> Any:
    """A float as the Fraction of its shortest decimal; whatever is no number stays itself."""
    if isinstance(value, bool) or not isinstance(value, int | float | Fraction):
        return value
    if isinstance(value, float):
        try:
            return Fraction(repr(value))
        except ValueError:
            raise NoValue(f"the result is {value}") from None
    return Fraction(value)


def _value(formula: Formula, node: ast.expr, values: Mapping[str, Any], table: Calculators) -> Any:
    match node:
        case ast.Constant(value=str() | bool() as plain):
            return plain
        case ast.Constant():
            return literal(formula.text, node)
        case ast.Name(id=name):
            return values[name]
        case ast.UnaryOp(operand=operand):
            return -_value(formula, operand, values, table)
        case ast.BinOp():
            return _arithmetic(formula, node, values, table)
        case ast.Attribute(value=result, attr=field):
            return exact(getattr(_value(formula, result, values, table), field))
        case ast.List(elts=elements):
            return tuple(_value(formula, element, values, table) for element in elements)
        case ast.Call():
            return _call(formula, node, values, table)
    raise FormulaRefused(formula.text, node.col_offset + 1, "not a formula")


def _arithmetic(
    formula: Formula, node: ast.BinOp, values: Mapping[str, Any], table: Calculators
) -> Fraction:
    left = _value(formula, node.left, values, table)
    right = _value(formula, node.right, values, table)
    for side in (left, right):
        if isinstance(side, bool) or not isinstance(side, int | Fraction):
            raise NoValue(f"{side!r} is not a number to calculate with")
    match node.op:
        case ast.Add():
            return Fraction(left + right)
        case ast.Sub():
            return Fraction(left - right)
        case ast.Mult():
            return Fraction(left * right)
    if right == 0:
        raise NoValue("division by zero")
    return Fraction(Fraction(left) / right)


def _call(formula: Formula, node: ast.Call, values: Mapping[str, Any], table: Calculators) -> Any:
    assert isinstance(node.func, ast.Name)
    calculator = table[node.func.id]
    given = {
        str(keyword.arg): _as_input(_value(formula, keyword.value, values, table))
        for keyword in node.keywords
    }
    try:
        return exact(calculator.function(**given))
    except (ValueError, ArithmeticError) as error:
        raise NoValue(str(error)) from error


def _as_input(value: Any) -> Any:
    """Calculators take int and float; a whole Fraction becomes an int."""
    if isinstance(value, tuple):
        return tuple(_as_input(part) for part in value)
    if isinstance(value, Fraction):
        return int(value) if value.denominator == 1 else float(value)
    return value
