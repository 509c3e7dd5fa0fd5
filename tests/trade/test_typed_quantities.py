"""What people type is read exactly, or refused with a sentence that asks the right question.

The table of readings is the project's own; each value was worked out by hand from 1 in = 25.4 mm
and 1 US gal = 231 in³ (NIST SP 811 appendix B).
"""

import re
from contextlib import suppress
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.errors import NotAChoice
from app.trade.lengths import Unreadable, in_unit, read_quantity

READ = [
    ("1 1/2 in", "38.1"),
    ('1-1/2"', "38.1"),
    ("1½ in", "38.1"),
    ("1-½ in", "38.1"),
    ('3/4"', "19.05"),
    ("20 mil", "0.508"),
    ("6'-4\"", "1930.4"),
    ("6 ft 4 in", "1930.4"),
    ("6 ft. 4 in.", "1930.4"),
    ("6 pies 4 pulg", "1930.4"),
    ("6 pies 4 pulgadas", "1930.4"),
    ("6'-4 1/2\"", "1943.1"),
    ("6’–4½”", "1943.1"),
    ("6′ 4″", "1930.4"),
    (".5 in", "12.7"),
    ("0.3 mm", "0.3"),
    ("2 m", "2000"),
    ("12'", "3657.6"),
    ("12''", "304.8"),
    ("0'-6\"", "152.4"),
]


@pytest.mark.parametrize(("typed", "mm"), READ)
def test_a_length_is_read_exactly(typed, mm):
    assert read_quantity(typed, "length").value == Fraction(mm)


def test_a_bare_number_is_in_the_fields_unit():
    assert read_quantity("1 1/2", "length", "in").value == Fraction("38.1")


def test_a_volume_in_gallons():
    # 0.25 US gal = 57.75 in³ = 0.946353 L to six places (NIST SP 811).
    assert round(float(read_quantity("0.25 gal", "volume").value) / 1000, 6) == 0.946353


def test_it_says_back_what_it_read():
    assert read_quantity("6'-4\"", "length").said == "6 ft 4 in = 76 in"
    assert read_quantity("1-1/2 in", "length").said == "1 1/2 in = 38.1 mm"
    assert read_quantity("0.25 gal", "volume").said == "0.25 gal is about 946.353 mL"


REFUSED = [
    ("4", "4 what?"),
    ("1 3/2 in", "Do you mean 2 1/2?"),
    ("6'-14\"", "Do you mean 7 ft 2 in?"),
    ("5.5' 6\"", "Feet must be whole"),
    ("1/0 in", "0 below its line"),
    ("1,5 mm", "What does the comma"),
    ("1,500 mm", "What does the comma"),
    ("-3 in", "below zero"),
    ("−3 in", "below zero"),
    ("1e3 mm", "without the e"),
    ("1.5E3 mm", "without the e"),
    ("nan mm", "does not start with a number"),
    ("inf", "does not start with a number"),
    ("9" * 41, "more than 40 characters"),
    ("", "Nothing is typed"),
    ("   ", "Nothing is typed"),
    ("6' 4", "What is the 4 after the feet?"),
    ("6 ft 4 lb", "only inches can follow"),
    ("4 lb", "lb is for mass"),
    ("4 furlongs", "What unit is"),
    ("6² in", "one number or two"),
    ("1 500 mm", "one number or two"),
    ("1/2/3 in", "one number or two"),
    ("٣ in", "does not start with a number"),
]


@pytest.mark.parametrize(("typed", "question"), REFUSED)
def test_what_is_unclear_is_refused_with_a_question(typed, question):
    with pytest.raises(Unreadable) as refused:
        read_quantity(typed, "length")
    assert question in refused.value.sentence
    assert refused.value.text == typed


def test_braces_in_the_text_do_not_break_the_sentence():
    with pytest.raises(Unreadable, match=re.escape("“{0}”")):
        read_quantity("4 {0}", "length")


@pytest.mark.parametrize(
    ("typed", "quantity", "value"),
    [
        ("2:1", "ratio", "2"),
        ("2", "ratio", "2"),
        ("15 %", "share", "0.15"),
        ("0.15", "share", "0.15"),
        ("-5 °C", "temperature", "-5"),
        ("50 F", "temperature", "10"),
        ("14 °F", "temperature", "-10"),
        ("300 cP", "viscosity", "0.3"),
        ("300 mPa·s", "viscosity", "0.3"),
        ("0.4 N/mm²", "pressure", "0.4"),
        ("3", "count", "3"),
        ("1 1/2 h", "time", "90"),
    ],
)
def test_other_quantities(typed, quantity, value):
    assert read_quantity(typed, quantity).value == Fraction(value)


def test_a_share_above_one_without_its_sign_is_asked_about():
    with pytest.raises(Unreadable, match="Is 15 % meant"):
        read_quantity("15", "share")


def test_half_a_port_is_refused():
    with pytest.raises(Unreadable, match="whole number"):
        read_quantity("2.5", "count")


def test_an_unknown_quantity_is_refused():
    with pytest.raises(NotAChoice, match="'colour'"):
        read_quantity("4 mm", "colour")


@given(
    st.integers(0, 999),
    st.integers(0, 11),
    st.integers(1, 15),
)
def test_feet_inches_and_sixteenths_come_back_as_they_went_in(feet, inches, sixteenths):
    typed = f"{feet}'-{inches} {sixteenths}/16\""
    exact = 12 * feet + inches + Fraction(sixteenths, 16)
    assert in_unit(read_quantity(typed, "length").value, "in") == exact


@given(st.text(max_size=60))
def test_any_text_is_read_or_refused_never_a_crash(text):
    with suppress(Unreadable):  # anything else it raises fails the test
        assert read_quantity(text, "length", "mm").value >= 0
