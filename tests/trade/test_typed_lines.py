"""Lines and widths as they are typed on site."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.typed_lines import length_of, read_gauges, read_line, read_lines
from app.trade.typed_number import Unreadable


def test_a_unit_in_front_holds_for_the_line():
    assert read_line("in: 0, 0; 2 1/2, 36; 0, 6 ft") == ((0, 0), (63.5, 914.4), (0, 1828.8))


def test_without_one_each_length_carries_its_own_and_zero_needs_none():
    assert read_line("0, 0; 10 cm, 1 m") == ((0.0, 0.0), (100.0, 1000.0))


def test_line_breaks_part_points_of_one_line_and_lines_of_several():
    assert read_line("mm: 0, 0\n0, 900") == ((0.0, 0.0), (0.0, 900.0))
    assert len(read_lines("mm: 0,0; 5,5\n\nin: 1,1; 2,2\n")) == 2


@pytest.mark.parametrize("minus", ["-", "−", "–"])
def test_a_line_may_run_to_the_left(minus: str):
    assert read_line(f"mm: 0, 0; {minus}30, 900")[1] == (-30.0, 900.0)


def test_widths_are_gauged_at_places_along_the_crack():
    assert read_gauges("0, 20 mil; 3 ft, 0.25 mm") == ((0.0, 0.508), (914.4, 0.25))


@pytest.mark.parametrize(
    ("typed", "asked"),
    [
        ("0, 0; 5", "“5” is not a point"),
        ("0, 0; 5, 5", "5 what? Add the unit"),
        ("furlong: 0, 0; 5, 5", "What unit is “furlong”?"),
        ("0, 0; 5 psi, 5 mm", "psi is for pressure"),
        ("", "A line needs two points"),
        ("0, 0;" * 1000, "too long"),
    ],
)
def test_what_is_unclear_is_asked_about(typed: str, asked: str):
    with pytest.raises(Unreadable) as refusal:
        read_line(typed)
    assert asked in refusal.value.sentence


@given(st.lists(st.tuples(st.integers(-999, 999), st.integers(-999, 999)), min_size=2, max_size=9))
def test_a_line_reads_back_as_it_was_drawn(points: list[tuple[int, int]]):
    typed = "; ".join(f"{x}, {y}" for x, y in points)
    read = read_line(f"mm: {typed}")
    assert read == tuple((float(x), float(y)) for x, y in points)
    assert length_of(read) == pytest.approx(sum(math.dist(a, b) for a, b in pairwise(points)))
