"""Port spacing: every rule beside the others, and ports on a plain crack."""

import math
from itertools import pairwise
from pathlib import Path

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from app.trade.errors import OutOfRange
from app.trade.spacing import (
    port_count,
    port_positions,
    port_spacing_half_thickness,
    port_spacing_rules,
)

SOURCES = yaml.safe_load(
    (Path(__file__).resolve().parents[2] / "content" / "sources.yaml").read_text()
)


def test_half_of_a_six_inch_wall_is_three_inches():
    # Worked example, common practice.
    assert port_spacing_half_thickness(152.4) == pytest.approx(76.2)


def test_the_rules_for_a_150_mm_wall_cracked_through():
    found = {r.source: (r.low_mm, r.high_mm) for r in port_spacing_rules(150, 150).rules}
    assert found == {
        "spacing-half-thickness": (75, 75),  # common practice
        "spacing-depth": (None, 150),  # TxDOT ch. 3 §5
        "spacing-every-150": (150, 150),  # UFC 4-150-07 CR-1
        "spacing-low-pressure-injectors": (200, 300),  # MLIT §4.3.4
        "spacing-over-thickness": (400, 500),  # UFGS 03930 §3.3.4 note
        "spacing-thickness": (150, 150),  # ACI 224.1R, from memory
    }


def test_no_spacing_suits_every_rule_so_none_can_be_picked_silently():
    rules = port_spacing_rules(150, 150)
    for spacing in range(10, 1000, 5):
        assert not all(rule.allows(spacing) for rule in rules.rules)
    assert (rules.smallest_mm, rules.largest_mm) == (75, 500)


def test_over_the_thickness_outgrows_its_own_default():
    def over(thickness):
        rules = port_spacing_rules(thickness, thickness).rules
        return next(r for r in rules if r.source == "spacing-over-thickness")

    assert (over(450).low_mm, over(450).high_mm) == (450, 500)
    assert (over(600).low_mm, over(600).high_mm) == (600, None)


def test_each_rule_is_marked_as_its_source_is():
    for rule in port_spacing_rules(200, 120).rules:
        assert rule.confidence == SOURCES[rule.source]["confidence"]


def test_a_crack_deeper_than_the_member_is_refused():
    with pytest.raises(OutOfRange, match="depth_mm is 200"):
        port_spacing_rules(150, 200)


@given(st.floats(1, 1e5), st.floats(10, 2000))
def test_ports_at_both_ends_and_no_gap_over_the_spacing(length, spacing):
    places = port_positions(length, spacing)
    assert (places[0], places[-1]) == (0, pytest.approx(length))
    assert len(places) == port_count(length, spacing) >= 2
    assert all(b - a <= spacing * (1 + 1e-8) for a, b in pairwise(places))


@given(st.integers(1, 500), st.floats(10, 2000))
def test_a_whole_number_of_gaps_gets_no_extra_port(gaps, spacing):
    assert port_count(gaps * spacing, spacing) == gaps + 1


@given(st.floats(20, 1e5), st.floats(10, 2000))
def test_one_port_fewer_would_leave_a_gap(length, spacing):
    count = port_count(length, spacing)
    if count > 2:
        assert length / (count - 2) > spacing
    assert count >= math.ceil(length / spacing)
