"""Every registered function keeps its contract: docstring, signature, bounds, sources, example.

The docstring is read as text and compared with the signature; each argument is then pushed just
outside each of its bounds, starting from the call that the docstring's own example makes.
"""

import ast
import doctest
import inspect
import math
import re
import sys
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest
import yaml

from app.trade.calculator import REQUIRED, Calculator, Input
from app.trade.errors import NotAChoice, OutOfRange
from app.trade.registry import CALCULATORS
from app.trade.units import UNITS

SOURCES = yaml.safe_load(
    (Path(__file__).resolve().parents[2] / "content" / "sources.yaml").read_text()
)
SECTIONS = ("Inputs", "Result", "Errors", "Source", "Example")

# `within` compares a reading in any unit with limits from a data sheet: no bound fits it.
UNBOUNDED = {"within"}

each_calculator = pytest.mark.parametrize("entry", CALCULATORS.values(), ids=CALCULATORS.keys())
PAIRS = [
    pytest.param(entry, one, id=f"{entry.name}-{one.name}")
    for entry in CALCULATORS.values()
    for one in entry.inputs
]
NUMERIC = [pair for pair in PAIRS if pair.values[1].kind not in ("choice", "flag")]
each_input = pytest.mark.parametrize(("entry", "one"), PAIRS)
each_numeric_input = pytest.mark.parametrize(("entry", "one"), NUMERIC)


def sections(entry: Calculator) -> dict[str, str]:
    text = inspect.getdoc(entry.function) or ""
    parts = re.split(r"^(\w+):", text, flags=re.MULTILINE)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


def module_of(entry: Calculator) -> dict[str, Any]:
    return vars(sys.modules[entry.function.__module__])


def documented_call(entry: Calculator) -> dict[str, Any]:
    """The arguments of the first call of the function in its own example."""
    for example in doctest.DocTestParser().get_examples(inspect.getdoc(entry.function) or ""):
        for node in ast.walk(ast.parse(example.source)):
            if isinstance(node, ast.Call) and ast.unparse(node.func) == entry.name:
                values = [eval(ast.unparse(arg), dict(module_of(entry))) for arg in node.args]
                named = {
                    word.arg: eval(ast.unparse(word.value), dict(module_of(entry)))
                    for word in node.keywords
                    if word.arg
                }
                return dict(inspect.signature(entry.function).bind(*values, **named).arguments)
    raise AssertionError(f"{entry.name}: the example never calls it")


@each_calculator
def test_its_docstring_names_every_argument_and_no_other(entry: Calculator):
    parts = sections(entry)
    assert set(SECTIONS) <= set(parts), f"sections missing: {set(SECTIONS) - set(parts)}"
    written = re.findall(r"^    (\w+): ", parts["Inputs"], flags=re.MULTILINE)
    parameters = inspect.signature(entry.function).parameters
    assert written == list(parameters)
    assert [one.name for one in entry.inputs] == list(parameters)


@each_calculator
def test_its_defaults_are_the_registrys(entry: Calculator):
    parameters = inspect.signature(entry.function).parameters
    for one in entry.inputs:
        default = parameters[one.name].default
        if one.default is REQUIRED:
            assert default is inspect.Parameter.empty, one.name
        else:
            assert default == one.default, one.name


@each_calculator
def test_its_units_are_known_and_in_the_argument_names(entry: Calculator):
    for one in entry.inputs:
        if one.unit:
            assert one.unit in UNITS, f"{one.name}: {one.unit}"
        suffix = next((u for u in sorted(UNITS, key=len) if one.name.endswith("_" + u)), None)
        if suffix and one.kind in ("number", "numbers") and suffix not in ("in", "m"):
            assert one.name.endswith(one.unit), f"{one.name} is in {one.unit}"


@each_calculator
def test_its_sources_are_on_file_and_in_the_docstring(entry: Calculator):
    cited = re.findall(r"[a-z0-9]+(?:-[a-z0-9]+)*", sections(entry)["Source"])
    assert [word for word in cited if word in SOURCES] == cited, "words that are no source id"
    assert set(cited) == set(entry.sources)


@each_calculator
def test_its_example_is_true(entry: Calculator):
    found = doctest.DocTestFinder().find(
        entry.function, entry.name, globs=dict(module_of(entry)), module=False
    )
    runner = doctest.DocTestRunner(verbose=False)
    for case in found:
        runner.run(case)
    assert runner.tries > 0
    assert runner.failures == 0


@each_calculator
def test_its_result_has_every_output_and_no_other(entry: Calculator):
    result = entry.function(**documented_call(entry))
    if not is_dataclass(result):
        assert len(entry.outputs) == 1
        return
    names = [out.name for out in entry.outputs]
    assert {field.name for field in fields(result)} <= set(names)
    for name in names:
        assert hasattr(result, name), name


def outside(one: Input, bound: float, direction: float) -> float:
    return bound + direction if one.kind == "count" else math.nextafter(bound, direction * math.inf)


def placed(one: Input, value: float, call: dict[str, Any]) -> Any:
    """The value as the input takes it: alone, in a list, or as a coordinate of a path."""
    if one.kind == "numbers":
        others = list(call.get(one.name) or [])
        return [*others[:-1], value]
    if one.kind == "path":
        return [*list(call[one.name])[:-1], (value, 0.0)]
    if one.kind == "paths":
        return [[(0.0, 0.0), (0.0, value)]]
    return value


@each_input
def test_a_number_just_outside_its_bounds_is_refused_with_its_value(entry: Calculator, one: Input):
    call = documented_call(entry)
    if one.kind in ("choice", "flag"):
        with pytest.raises(NotAChoice):
            entry.function(**{**call, one.name: "neither"})
        return
    has_bound = one.low is not None or one.high is not None
    assert has_bound or entry.name in UNBOUNDED, f"{one.name} has no bound at all"
    for bound, direction in ((one.low, -1.0), (one.high, 1.0)):
        if bound is None:
            continue
        value = outside(one, bound, direction)
        with pytest.raises(OutOfRange) as refused:
            entry.function(**{**call, one.name: placed(one, value, call)})
        assert refused.value.name == one.name
        assert refused.value.value == value
        assert one.name in refused.value.sentence


@each_numeric_input
def test_what_is_no_number_is_refused(entry: Calculator, one: Input):
    call = documented_call(entry)
    for value in (math.nan, math.inf):
        with pytest.raises(OutOfRange):
            entry.function(**{**call, one.name: placed(one, value, call)})
