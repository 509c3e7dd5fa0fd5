"""Formulas: exact arithmetic, calculators by name, everything else refused with its place."""

import ast
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.curriculum.questions.evaluation import NoValue, evaluate
from app.curriculum.questions.formula import FormulaRefused, read_formula
from app.trade.registry import CALCULATORS


def value(text, **names):
    return evaluate(read_formula(text, CALCULATORS), names, CALCULATORS)


def test_arithmetic_is_exact():
    assert value("0.1 + 0.2") == Fraction(3, 10)
    assert value("-(a - 1/3) * 3", a=Fraction(1)) == -2
    assert value("2 + 3 * 4 / 6") == 4


# Reference: Python's own parser and its arithmetic over Fractions.
def joined(inner):
    return st.tuples(inner, st.sampled_from("+-*/"), inner).map(
        lambda parts: f"({' '.join(parts)})"
    )


@given(st.recursive(st.integers(0, 99).map(str), joined, max_leaves=8))
def test_any_arithmetic_agrees_with_python(text):
    tree = ast.parse(text, mode="eval")
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant):
            node.value = Fraction(node.value)
    numbers: dict[str, Fraction] = {}

    class Named(ast.NodeTransformer):
        def visit_Constant(self, node):
            name = f"n{len(numbers)}"
            numbers[name] = node.value
            return ast.copy_location(ast.Name(name, ast.Load()), node)

    code = compile(ast.fix_missing_locations(Named().visit(tree)), "formula", "eval")
    try:
        wanted = eval(code, {}, numbers)
    except ZeroDivisionError:
        with pytest.raises(NoValue, match="division by zero"):
            value(text)
    else:
        assert value(text) == wanted


def test_a_calculator_is_called_by_name():
    """Reference: 0.3 mm × 200 mm × 10 m is 0.60 L (geometry)."""
    assert value("crack_volume(length_mm=a, depth_mm=200, width_mm=0.3)", a=Fraction(10_000)) == 600
    net = "resin_needed(length_mm=a, depth_mm=200, width_mm=0.3, waste=0.1).total_ml / 2"
    assert value(net, a=Fraction(10_000)) == 330


def test_names_and_calls_are_told():
    formula = read_formula("port_count(length_mm=a, spacing_mm=b) + c", CALCULATORS)
    assert formula.names == {"a", "b", "c"}
    assert formula.calls == {"port_count"}


@pytest.mark.parametrize(
    ("text", "column", "said"),
    [
        ("a ** 2", 1, "only numbers"),
        ("a % 2", 1, "only numbers"),
        ("a if b else c", 1, "only numbers"),
        ("[a]", 1, "only numbers"),
        ("1 + 'x'", 5, "only numbers"),
        ("True", 1, "only numbers"),
        ("lambda: 1", 1, "only numbers"),
        ("a.real", 1, "only numbers"),
        ("__import__(x='os')", 1, "no calculator __import__"),
        ("().__class__", 1, "only numbers"),
        ("f()()", 1, "only a calculator's name"),
        ("(1).bit_length()", 1, "only a calculator's name"),
        ("1 + port_count(5, spacing_mm=1)", 16, "inputs are given by name"),
        ("port_count(length_mm=1)", 1, "needs spacing_mm"),
        ("port_count(length_mm=1, gap_mm=2)", 25, "has no input gap_mm"),
        ("port_count(**a)", 12, "has no input None"),
        ("port_count(length_mm=1, spacing_mm=1).count", 1, "gives no count; it gives one number"),
        ("equal_parts(total_ml=1).__class__", 1, "gives no __class__; it gives a_ml, b_ml"),
        ("1_000", 1, "not a plain number"),
        ("0x10", 1, "not a plain number"),
        ("1j", 1, "only numbers"),
        ("1 +", None, "not readable"),
        ("", None, "not readable"),
        ("a; b", None, "not readable"),
        ("a := 1", None, "not readable"),
        ("+a", 1, "only numbers"),
        ("not a", 1, "only numbers"),
        ("1" * 401, 400, "longer than 400"),
    ],
)
def test_everything_else_is_refused_with_its_place(text, column, said):
    with pytest.raises(FormulaRefused) as refused:
        read_formula(text, CALCULATORS)
    assert said in str(refused.value)
    assert column in (None, refused.value.column)  # where Python's parser stops is its affair


def test_numbers_that_give_no_value_are_told():
    with pytest.raises(NoValue, match="division by zero"):
        value("1 / (a - a)", a=Fraction(1))
    with pytest.raises(NoValue, match="length_mm is -1"):
        value("crack_volume(length_mm=0 - 1, depth_mm=1, width_mm=1)")
    with pytest.raises(NoValue, match="not a number to calculate with"):
        value("a + 1", a="word")


def test_a_value_that_is_missing_is_an_error_of_the_caller():
    with pytest.raises(KeyError):
        value("a + 1")
