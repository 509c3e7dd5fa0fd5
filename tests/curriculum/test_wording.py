"""Questions and solutions in words, with the numbers people are used to."""

from fractions import Fraction

import pytest
from item_models import resin_with

from app.curriculum.questions.items import ComputedQuestion
from app.curriculum.questions.variants import draw_variant, working_values
from app.curriculum.questions.wording import asked, in_own_unit, in_system, worked_solution
from app.trade.registry import CALCULATORS
from app.trade.units import UNITS

QUESTION = resin_with(length=12, depth=8, width=20, waste=15)
VARIANT = draw_variant(QUESTION, "0" * 64, CALCULATORS)


def test_the_question_gives_each_number_in_its_own_unit_and_the_other_system():
    said = asked(QUESTION, VARIANT, "en")
    assert said == "12 ft (3658 mm) long, 8 in (203 mm) deep, 20 mil (0.508 mm) wide, 15 % more."


def test_a_language_without_words_gets_english():
    assert asked(QUESTION, VARIANT, "fr") == asked(QUESTION, VARIANT, "en")


def test_spanish_gives_thousandths_of_an_inch_in_inches():
    """In Spanish "mil" is a thousand; 1 mil is 0.001 in by its definition."""
    said = asked(QUESTION, VARIANT, "es")
    assert said == "12 ft (3658 mm) long, 8 in (203 mm) deep, 0.020 in (0.508 mm) wide, 15 % more."
    working = working_values(QUESTION, VARIANT, CALCULATORS)
    worked = worked_solution(QUESTION, VARIANT, working, "es", "us")
    assert worked == "12 ft × 8 in × 0.020 in = 12.8 fl oz; 15 % more: 14.7 fl oz."


def test_the_solution_is_worked_in_both_systems():
    """Reference: 12.7668 and 14.6818 US fl oz (geometry); 29.5735 ml a US fl oz."""
    working = working_values(QUESTION, VARIANT, CALCULATORS)
    us = worked_solution(QUESTION, VARIANT, working, "en", "us")
    metric = worked_solution(QUESTION, VARIANT, working, "en", "metric")
    assert us == "12 ft × 8 in × 20 mil = 12.8 fl oz; 15 % more: 14.7 fl oz."
    assert metric == "3658 mm × 203 mm × 0.508 mm = 378 mL; 15 % more: 434 mL."


@pytest.mark.parametrize(
    ("number", "unit", "said"),
    [
        (Fraction(3, 2), "in", "1 1/2 in"),
        (Fraction(12), "ft", "12 ft"),
        (Fraction(3, 10), "mm", "0.3 mm"),
        (Fraction(2), "parts", "2"),
        (Fraction(7), "count", "7"),
        (Fraction(50), "f", "50 °F"),
        (Fraction(1, 3), "min", "1/3 min"),
    ],
)
def test_a_number_is_written_as_it_was_drawn(number, unit, said):
    assert in_own_unit(number, UNITS[unit]) == said


def test_degrees_are_converted_with_their_offset():
    assert in_system(Fraction(50), UNITS["f"], "metric") == "10 °C"
    assert in_system(Fraction(30), UNITS["min"], "us") == "30 min"


def test_a_bracketed_conversion_is_never_far_off():
    """Reference: 25.4 mm an inch: 250 mm is 9.8425 in; the tape's 9 13/16 in is 0.3 % short."""
    question = resin_with(length=12, depth=8, width=20, waste=15)
    depth = question.variables["depth"].model_copy(update={"unit": "mm", "choices": (250,)})
    model = question.model_copy(update={"variables": {**question.variables, "depth": depth}})
    said = asked(model, draw_variant(model, "0" * 64, CALCULATORS), "en")
    assert "250 mm (9.843 in) deep" in said


def test_a_count_is_asked_in_its_own_units_only():
    """A rounded conversion could add a gap: 3 m at 150 mm is 20 gaps, 118 1/8 at 5 7/8 in is 21."""
    question = ComputedQuestion.model_validate(PORTS)
    variant = draw_variant(question, "0" * 64, CALCULATORS)
    assert asked(question, variant, "en") == "3 m, 150 mm apart."
    for system in ("metric", "us"):
        assert worked_solution(question, variant, {}, "en", system) == "3 m at 150 mm: 21."


PORTS = {
    "id": "ports",
    "kind": "computed",
    "version": 1,
    "text": {"en": "{length}, {gap} apart."},
    "variables": {
        "length": {"unit": "m", "choices": (3,)},
        "gap": {"unit": "mm", "choices": (150,)},
    },
    "answer": {
        "quantity": "count",
        "unit": "count",
        "key": "port_count(length_mm=length, spacing_mm=gap)",
    },
    "solution": {"en": "{length} at {gap}: {key}."},
    "source": "port-at-ends",
}
