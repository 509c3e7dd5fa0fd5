"""YAML is read exactly and with lines."""

from fractions import Fraction

import pytest

from app.curriculum.loading.yaml_lines import YamlRefused, read_yaml


def test_numbers_stay_exact_and_ratios_stay_text():
    located = read_yaml("a: 0.1\nb: 1:1\nc: 12\nd: '0.1'\ne: [1, .5]\nf: yes\ng: true\nh:\n")
    assert located.data == {
        "a": Fraction(1, 10),
        "b": "1:1",
        "c": 12,
        "d": "0.1",
        "e": (1, Fraction(1, 2)),
        "f": "yes",
        "g": True,
        "h": None,
    }


def test_every_path_has_its_line_and_an_unknown_one_the_line_of_its_parent():
    located = read_yaml("top:\n  - one: 1\n    two: 2\n  - one: 3\n", first_line=10)
    assert located.line_of(("top", 0, "two")) == 12
    assert located.line_of(("top", 1, "one")) == 13
    assert located.line_of(("top", 1, "gone", "deeper")) == 13
    assert located.line_of(()) == 10


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("a: 1\na: 2\n", 2, "the key a stands twice"),
        ("a: 1\nb: [1\n", 3, "not readable as YAML"),
        ("a: &x {b: 1}\nc:\n  <<: *x\n", 3, "plain word"),
        ("a: \x00", 1, "not readable as YAML"),
    ],
)
def test_what_is_not_plain_yaml_is_refused_with_its_line(text, line, said):
    with pytest.raises(YamlRefused) as refused:
        read_yaml(text)
    assert refused.value.line == line
    assert said in refused.value.sentence
