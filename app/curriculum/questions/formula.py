"""PURE. Safe arithmetic for content files: numbers, names, + - * /, calls of calculators, .field.

A formula is read with Python's own grammar, then walked: whatever is not on the short list
below is refused with its place. Nothing is ever handed to eval.
"""

from __future__ import annotations

import ast
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, is_dataclass
from fractions import Fraction
from functools import cache, lru_cache
from typing import Any, get_type_hints

from app.trade.calculator import REQUIRED, Calculator

Calculators = Mapping[str, Calculator]
LONGEST = 400
_OPERATORS = (ast.Add, ast.Sub, ast.Mult, ast.Div)


class FormulaRefused(ValueError):
    """The text is not a formula we take; `column` starts at 1."""

    def __init__(self, text: str, column: int, sentence: str) -> None:
        super().__init__(f"{sentence} (at character {column} of: {text})")
        self.text = text
        self.column = column
        self.sentence = sentence


@dataclass(frozen=True)
class Formula:
    """A formula that was read: its text, its tree, the names and the calculators it uses."""

    text: str
    tree: ast.expr
    names: frozenset[str]
    calls: frozenset[str]


def read_formula(text: str, calculators: Calculators) -> Formula:
    """Read `text`, checking every call against `calculators`.

    Raises FormulaRefused. Example: read_formula("2 * width / 3", {}).names == {"width"}.
    """
    if len(text) > LONGEST:
        raise FormulaRefused(text, LONGEST, f"longer than {LONGEST} characters")
    tree = _tree_of(text)
    reader = _Reader(text, calculators)
    reader.check(tree)
    return Formula(text, tree, frozenset(reader.names), frozenset(reader.calls))


def _one_line(text: str) -> str:
    return text.strip().replace("\n", " ")


@lru_cache(maxsize=2000)
def _tree_of(text: str) -> ast.expr:
    try:
        return ast.parse(_one_line(text), mode="eval").body
    except (SyntaxError, ValueError) as error:
        column = getattr(error, "offset", None) or 1
        raise FormulaRefused(text, column, "not readable as a formula") from None


def result_fields(calculator: Calculator) -> tuple[str, ...]:
    """What may stand after the dot: the fields and properties of the calculator's result.

    Empty for a calculator that gives one number.
    """
    return _fields_of(calculator.function)


@cache
def _fields_of(function: Callable[..., Any]) -> tuple[str, ...]:
    result = get_type_hints(function).get("return")
    if not isinstance(result, type) or not is_dataclass(result):
        return ()
    properties = (name for name, kind in vars(result).items() if isinstance(kind, property))
    return (*(field.name for field in fields(result)), *properties)


class _Reader:
    """Walks the tree once, refusing what is not allowed and noting what is used."""

    def __init__(self, text: str, calculators: Calculators) -> None:
        self.text = text
        self.calculators = calculators
        self.names: set[str] = set()
        self.calls: set[str] = set()

    def refuse(self, node: ast.AST, sentence: str) -> FormulaRefused:
        column = int(getattr(node, "col_offset", 0)) + 1
        return FormulaRefused(self.text, column, sentence)

    def check(self, node: ast.expr) -> None:
        match node:
            case ast.Constant(value=value) if type(value) in (int, float):
                literal(self.text, node)
            case ast.Name(id=name):
                self.names.add(name)
            case ast.UnaryOp(op=ast.USub(), operand=operand):
                self.check(operand)
            case ast.BinOp(left=left, op=operator, right=right) if isinstance(operator, _OPERATORS):
                self.check(left)
                self.check(right)
            case ast.Attribute(value=ast.Call() as call, attr=field):
                self.check_call(call)
                self.check_field(node, call, field)
            case ast.Call():
                self.check_call(node)
            case _:
                raise self.refuse(node, "only numbers, names, + - * / ( ) and calculators")

    def check_call(self, call: ast.Call) -> None:
        if not isinstance(call.func, ast.Name):
            raise self.refuse(call, "only a calculator's name may be called")
        calculator = self.calculators.get(call.func.id)
        if calculator is None:
            raise self.refuse(call, f"there is no calculator {call.func.id}")
        if call.args:
            raise self.refuse(call.args[0], "inputs are given by name: width_mm=width")
        self.calls.add(calculator.name)
        known = {given.name for given in calculator.inputs}
        for keyword in call.keywords:
            if keyword.arg not in known:
                raise self.refuse(keyword, f"{calculator.name} has no input {keyword.arg}")
            self.check_input(keyword.value)
        given_names = {keyword.arg for keyword in call.keywords}
        missing = [one.name for one in calculator.inputs if one.default is REQUIRED]
        missing = [name for name in missing if name not in given_names]
        if missing:
            raise self.refuse(call, f"{calculator.name} needs {', '.join(missing)}")

    def check_input(self, node: ast.expr) -> None:
        match node:
            case ast.Constant(value=str() | bool()):
                return
            case ast.List(elts=elements):
                for element in elements:
                    self.check_input(element)
            case _:
                self.check(node)

    def check_field(self, node: ast.expr, call: ast.Call, field: str) -> None:
        assert isinstance(call.func, ast.Name)
        known = result_fields(self.calculators[call.func.id])
        if field not in known:
            gives = ", ".join(known) or "one number"
            raise self.refuse(node, f"{call.func.id} gives no {field}; it gives {gives}")


def literal(text: str, node: ast.expr) -> Fraction:
    """The number as it is written in the formula, so that 0.1 is one tenth."""
    written = _one_line(text).encode()[node.col_offset : node.end_col_offset].decode()
    return _plain_number(text, node.col_offset + 1, written)


@lru_cache(maxsize=2000)
def _plain_number(text: str, column: int, written: str) -> Fraction:
    try:
        return Fraction(written.replace("_", "x"))
    except (ValueError, ZeroDivisionError):
        raise FormulaRefused(text, column, f"{written} is not a plain number") from None
