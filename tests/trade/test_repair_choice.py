"""Is injection the right repair? EM 1110-2-2002 fig. 4-4 (restated), §4-7a and §6-22b."""

import itertools

import pytest

from app.trade.repair_choice import REINFORCE, repair_choice

GOOD = {
    "movement": "dormant",
    "pattern": "isolated",
    "strength_wanted": True,
    "water": "dry",
    "width_mm": 0.3,
    "temperature_c": 18,
    "member": "reinforced",
}


@pytest.mark.parametrize(
    ("changed", "choice", "source"),
    [
        ({}, "inject", "repair-choice-chart"),
        ({"water": "damp"}, "inject", "repair-choice-chart"),
        ({"water": "wet"}, "inject-with-added-reinforcement", "repair-choice-chart"),
        ({"water": "leaking"}, "not-by-this-method", "leaking-crack"),
        ({"strength_wanted": False, "water": "wet"}, "seal-flexibly", "repair-choice-chart"),
        ({"strength_wanted": False}, "seal-flexibly", "filler-classes"),
        ({"pattern": "pattern"}, "not-by-this-method", "repair-choice-chart"),
        ({"movement": "moving"}, "not-by-this-method", "moving-crack"),
        ({"movement": "moving", "strength_wanted": False}, "seal-flexibly", "moving-crack"),
        ({"width_mm": 0.04}, "not-by-this-method", "width-lowest-bonded"),
        ({"temperature_c": 7.9}, "not-by-this-method", "temperature-lowest"),
        ({"member": "not-concrete"}, "not-by-this-method", "filler-classes"),
    ],
)
def test_what_the_chart_leads_to(changed, choice, source):
    found = repair_choice(**{**GOOD, **changed})
    assert found.choice == choice
    assert source in [reason.source for reason in found.reasons if reason.weight == "decides"]


def test_a_good_case_has_no_doubts():
    assert not repair_choice(**GOOD).has_doubts


@pytest.mark.parametrize(
    ("changed", "doubted_by"),
    [
        ({"temperature_c": 9}, {"temperature-lowest"}),  # 8 °C passes one source, not the other
        ({"width_mm": 0.14}, {"width-precast"}),
        ({"width_mm": 0.11}, {"width-resin-must-enter", "width-lowest-bonded", "width-precast"}),
        ({"water": "damp"}, {"leaking-crack"}),
        ({"member": "plain"}, {"member-plain"}),  # common practice
    ],
)
def test_where_sources_disagree_it_says_which(changed, doubted_by):
    found = repair_choice(**{**GOOD, **changed})
    assert found.choice == "inject"
    assert {r.source for r in found.reasons if r.weight == "doubt"} == doubted_by
    assert found.has_doubts


def test_a_prestressed_member_is_pointed_to_the_source_that_speaks_of_it():
    found = repair_choice(**{**GOOD, "member": "prestressed"})
    assert ("note", "width-precast") in [(r.weight, r.source) for r in found.reasons]


def test_every_answer_has_a_reason_and_leaves_the_decision_to_the_engineer():
    for movement, pattern, strength, water, member in itertools.product(
        ("dormant", "moving"),
        ("isolated", "pattern"),
        (True, False),
        ("dry", "damp", "wet", "leaking"),
        ("reinforced", "prestressed", "plain", "not-concrete"),
    ):
        found = repair_choice(movement, pattern, strength, water, 0.3, 18, member)
        assert [reason for reason in found.reasons if reason.weight == "decides"]
        assert "engineer decides" in found.who_decides
        if movement == "moving" or pattern == "pattern":
            assert found.choice not in ("inject", REINFORCE)
