"""Figure-of-fact marks: read, compared between the unit systems, bare numbers found."""

import pint
import pytest

from app.curriculum.loading.fact_check import mismatch
from app.curriculum.loading.facts import Fact, FactRefused, bare_digits, plain_text, read_fact


def test_a_mark_is_metric_us_and_source_or_one_value_and_source():
    assert read_fact("150 mm | 6 in | s") == Fact("150 mm", "6 in", "s")
    assert read_fact(" 1:1 | s ") == Fact("1:1", None, "s")
    assert plain_text("a {{150 mm | 6 in | s}} gap") == "a 150 mm (6 in) gap"


@pytest.mark.parametrize("inside", ["150 mm", "a | b | c | d", "150 mm |  | s", ""])
def test_a_mark_without_its_parts_is_refused(inside):
    with pytest.raises(FactRefused):
        read_fact(inside)


def test_bare_numbers_are_found_and_list_numbers_are_not():
    text = "1. Wait {{3 min | s}}\n2. Then 4,5 or 6"
    assert bare_digits(text) == [text.index("4,5"), text.index("6")]
    assert bare_digits("no number at all {{12 mm | 1/2 in | s}}") == []


# The pairs stand in the sources named: MLIT §4.3.4 (50 mm, 2 in), EM 1110-2-2002 §6-22c (0.3–1.0
# MPa, 50–150 psi; 350 kPa, 50 psi), UFC 4-150-07 (10 °C, 50 °F), NCHRP 654 (0.15 mm, 0.006 in).
@pytest.mark.parametrize(
    ("metric", "us"),
    [
        ("50 mm", "2 in"),
        ("0.3–1.0 MPa", "50–150 psi"),
        ("350 kPa", "50 psi"),
        ("10 °C", "50 °F"),
        ("10 °C warmer", "18 °F warmer"),
        ("0.15 mm", "0.006 in"),
        ("38 mm", "1 1/2 in"),
        ("19 mm", "3/4 in"),
        ("0.13 mm", "5 mil"),
        ("0.5 L", "1 US pint"),
        ("1.7 m³/h per mm", "25 cfm per inch"),
        ("a wide band", "a wide band"),
    ],
)
def test_published_pairs_agree(metric, us):
    assert mismatch(metric, us) is None


@pytest.mark.parametrize(
    ("metric", "us", "said"),
    [
        ("150 mm", "60 in", "differ by more than"),
        ("10 °C", "10 °F", "differ by more than"),
        ("0.3–1.0 MPa", "50–200 psi", "differ by more than"),
        ("1 mm", "0.055 in", "differ by more than"),
        ("5 kg", "5 gal", "differ by more than"),
        ("5 mm", "some", "holds 1 figures"),
        ("5 widgets", "5 in", "no unit that is known"),
    ],
)
def test_pairs_that_do_not_fit_are_told(metric, us, said):
    assert said in mismatch(metric, us)


def test_the_ten_percent_is_measured_against_pint():
    """Reference: pint's inch. 25.4 mm an inch: 22.9 mm is within 10 % of it, 22.8 mm is not."""
    inch = pint.UnitRegistry().Quantity(1, "inch").to("mm").magnitude
    assert abs(22.9 - inch) / inch < 0.10 < abs(22.8 - inch) / inch
    assert mismatch("22.9 mm", "1.00 in") is None
    assert mismatch("22.8 mm", "1.00 in") is not None
