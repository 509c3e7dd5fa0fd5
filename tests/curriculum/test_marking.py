"""Marking: exact, inclusive, and honest about which slip it was."""

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from item_models import choice, resin_with

from app.curriculum.questions.items import Answer
from app.curriculum.questions.marking import (
    NoSuchOption,
    decide_quiz,
    diagnose,
    is_close,
    mark_choice,
    mark_computed,
)
from app.curriculum.questions.variants import draw_variant
from app.trade.lengths import Unreadable
from app.trade.registry import CALCULATORS

QUESTION = resin_with(length=12, depth=8, width=20, waste=15)
VARIANT = draw_variant(QUESTION, "0" * 64, CALCULATORS)


def answer(relative="0", absolute="0", unit="ml"):
    return Answer.model_validate(
        {"quantity": "volume", "unit": unit, "key": "x", "relative": relative, "absolute": absolute}
    )


def test_the_limit_itself_is_right_in_exact_arithmetic():
    """14.8 against 14.7 at ±0.1 is right; in floating point 14.8 − 14.7 > 0.1 makes it wrong."""
    assert 14.8 - 14.7 > 0.1
    assert is_close(answer(absolute="0.1"), Fraction("14.8"), Fraction("14.7"))
    assert not is_close(answer(absolute="0.1"), Fraction("14.801"), Fraction("14.7"))


def test_the_relative_tolerance_is_of_the_key():
    """102.04 against 100 at 2 % is wrong; numpy.isclose(100, 102.04, rtol=0.02) calls it close."""
    assert np.isclose(100, 102.04, rtol=0.02, atol=0)
    assert not is_close(answer(relative="0.02"), Fraction("102.04"), Fraction(100))
    assert is_close(answer(relative="0.02"), Fraction(102), Fraction(100))
    assert is_close(answer(relative="0.02"), Fraction(98), Fraction(100))


def test_the_larger_tolerance_counts():
    both = answer(relative="0.02", absolute="5")
    assert is_close(both, Fraction(105), Fraction(100))
    assert is_close(both, Fraction(1020), Fraction(1000))


@given(st.fractions(1, 1000), st.fractions(1, 1000), st.fractions("1/1000", "1/5"))
def test_right_means_within_tolerance_on_both_sides(key, value, relative):
    close = is_close(answer(relative=str(relative)), value, key)
    assert close == (key - relative * key <= value <= key + relative * key)


# The worked example: key 14.6818 US fl oz; no waste 12.7668; half the depth 7.3409.
@pytest.mark.parametrize(
    ("typed", "diagnosis", "slip"),
    [
        ("14.7", "right", None),
        ("14.7 fl oz", "right", None),
        ("434 ml", "right", None),
        ("0.1147 gal", "right", None),
        ("12.8", "slip", "no-waste"),
        ("7 1/3 oz", "slip", "half-depth"),
        ("20", "unknown", None),
    ],
)
def test_answers_are_told_apart(typed, diagnosis, slip):
    marked = mark_computed(QUESTION, VARIANT, typed)
    assert (marked.diagnosis, marked.slip_id) == (diagnosis, slip)
    assert marked.is_right == (diagnosis == "right")


def test_what_was_read_is_said():
    assert mark_computed(QUESTION, VARIANT, "1/2 qt").said.startswith("1/2 qt")


@pytest.mark.parametrize("typed", ["", "1,5", "abc", "14.7 in", "1e3"])
def test_what_cannot_be_read_is_not_an_answer(typed):
    with pytest.raises(Unreadable):
        mark_computed(QUESTION, VARIANT, typed)


def test_an_answer_near_two_slips_is_ambiguous():
    slips = {"one": Fraction(100), "two": Fraction(101), "three": Fraction(200)}
    assert diagnose(answer(absolute="1"), Fraction(50), slips, Fraction("100.5")) == (
        "ambiguous",
        None,
    )
    assert diagnose(answer(absolute="1"), Fraction(50), slips, Fraction(200)) == ("slip", "three")


def test_right_comes_before_any_slip():
    slips = {"one": Fraction(101)}
    assert diagnose(answer(absolute="1"), Fraction(100), slips, Fraction(101)) == ("right", None)


def test_a_ticked_option_is_right_or_not():
    assert mark_choice(choice("q"), "a").is_right
    assert not mark_choice(choice("q"), "c").is_right
    with pytest.raises(NoSuchOption):
        mark_choice(choice("q"), "z")


@pytest.mark.parametrize(
    ("asked", "right", "passed"),
    [(8, 7, True), (8, 6, False), (5, 4, True), (5, 3, False), (10, 8, True), (10, 7, False)],
)
def test_eighty_percent_passes(asked, right, passed):
    questions = [choice(f"q{number}") for number in range(asked)]
    marks = {f"q{number}": number < right for number in range(asked)}
    result = decide_quiz(questions, marks, Fraction("0.8"))
    assert (result.passed, result.right, result.asked) == (passed, right, asked)


def test_one_wrong_must_know_question_keeps_the_quiz_from_passing():
    questions = [choice(f"q{number}", must_know=number == 0) for number in range(10)]
    marks = {f"q{number}": number != 0 for number in range(10)}
    result = decide_quiz(questions, marks, Fraction("0.8"))
    assert result.right >= result.needed
    assert not result.passed
    assert result.must_know_missed == ("q0",)


def test_a_quiz_is_not_decided_before_every_question_is_marked():
    with pytest.raises(ValueError, match="asked"):
        decide_quiz([choice("q0"), choice("q1")], {"q0": True}, Fraction("0.8"))
    with pytest.raises(ValueError, match="asked"):
        decide_quiz([], {}, Fraction("0.8"))
