"""Quantities are written as the trade says them, and rounding never misleads."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.errors import NotAChoice, OutOfRange
from app.trade.lengths import read_quantity
from app.trade.showing import show


@pytest.mark.parametrize(
    ("mm", "metric", "us"),
    [
        (38, "38 mm", "1 1/2 in"),
        (38.1, "38.1 mm", "1 1/2 in"),
        (0.508, "0.508 mm", "20 mil"),
        (0.05, "0.05 mm", "1.97 mil"),
        (3.175, "3.17 mm", "1/8 in"),
        (6.35, "6.35 mm", "1/4 in"),
        (7, "7 mm", "0.276 in"),
        (16.764, "16.8 mm", "0.66 in"),  # 11/16 in would be 4 % over
        (50, "50 mm", "1 15/16 in"),  # 1.6 % under: a tape says it
        (457.2, "457 mm", "18 in"),
        (1930.4, "1930 mm", "6 ft 4 in"),
        (1943.1, "1943 mm", "6 ft 4 1/2 in"),
        (3657.6, "3658 mm", "12 ft"),
        (12192, "12.19 m", "40 ft"),
        (0, "0 mm", "0 in"),
    ],
)
def test_lengths(mm, metric, us):
    assert (show(mm, "length", "metric"), show(mm, "length", "us")) == (metric, us)


@pytest.mark.parametrize(
    ("value", "quantity", "metric", "us"),
    [
        (434.19, "volume", "434 mL", "14.7 fl oz"),
        (3785.411784, "volume", "3.79 L", "1 gal"),
        (500, "mass", "500 g", "1.1 lb"),
        (0.35, "pressure", "0.35 MPa", "50.8 psi"),
        (0.3, "viscosity", "300 mPa·s", "300 cP"),
        (-5, "temperature", "−5 °C", "23 °F"),
        (0.3, "time", "18 s", "18 s"),
        (21.2132, "time", "21.2 min", "21.2 min"),
        (150, "time", "2 h 30 min", "2 h 30 min"),
        (2.34694, "ratio", "2.347:1", "2.347:1"),
        (0.15, "share", "15 %", "15 %"),
        (9, "count", "9", "9"),
        (212.376, "airflow", "212 m³/h", "125 cfm"),
        (100, "concentration", "100 ppm", "100 ppm"),
    ],
)
def test_other_quantities(value, quantity, metric, us):
    assert (show(value, quantity, "metric"), show(value, quantity, "us")) == (metric, us)


@given(st.floats(0.01, 1e6), st.sampled_from(["metric", "us"]))
def test_what_is_shown_of_a_length_reads_back_within_two_per_cent(mm, system):
    read = float(read_quantity(show(mm, "length", system), "length").value)
    assert math.isclose(read, mm, rel_tol=0.0201)


@given(st.floats(0.001, 1e6), st.sampled_from(["metric", "us"]))
def test_nothing_that_is_there_is_shown_as_nothing(value, system):
    for quantity in ("length", "volume", "mass", "pressure"):
        number = show(value, quantity, system).split()[0]
        assert set(number) & set("123456789"), (value, quantity, number)


def test_what_is_no_number_or_no_quantity_is_refused():
    with pytest.raises(OutOfRange):
        show(math.nan, "length", "us")
    with pytest.raises(NotAChoice, match="'colour'"):
        show(1, "colour", "us")
    with pytest.raises(NotAChoice, match="'imperial'"):
        show(1, "length", "imperial")
