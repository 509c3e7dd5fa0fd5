"""The pieces of SVG: what comes out is XML, whatever words go in."""

from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.drawing.svg import number, path, picture, tag, words_at


@given(st.text(), st.text(), st.text())
def test_any_words_make_a_picture_that_parses_as_xml(title: str, description: str, words: str):
    text = picture("any", 10, 10, title, description, [words_at(1, 2, words)])
    root = ElementTree.fromstring(text)
    assert len(list(root)) == 3


def test_words_are_escaped_in_text_and_in_attributes():
    assert "<b>" not in picture("x", 1, 1, "<b>", 'a "quoted" & b', [tag("g", id='"><b>')])


def test_a_picture_is_named_and_described_for_those_who_do_not_see_it():
    root = ElementTree.fromstring(picture("crack", 10, 10, "A crack", "Seven ports.", []))
    ids = {child.get("id"): child.text for child in root}
    assert [ids[name] for name in root.get("aria-labelledby", "").split()] == [
        "A crack",
        "Seven ports.",
    ]
    assert root.get("role") == "img"


@pytest.mark.parametrize(
    ("value", "written"),
    [(12.0, "12"), (100.0, "100"), (1 / 3, "0.33"), (-1e-9, "0"), (1e6, "1000000"), (0.5, "0.5")],
)
def test_a_coordinate_is_short_and_has_no_exponent(value: float, written: str):
    assert number(value) == written


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_what_is_no_number_is_refused_with_its_value(value: float):
    with pytest.raises(ValueError, match=str(value)):
        number(value)


def test_a_path_runs_through_its_points():
    assert path([(0, 1), (2, 3.5)], "ink") == '<path class="ink" d="M0 1L2 3.5"/>'
    assert path([(0, 1), (2, 3)], "ink", is_closed=True).endswith('d="M0 1L2 3Z"/>')
