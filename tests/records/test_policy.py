"""The policy is the one the content files say, and impossible numbers are refused."""

import pytest

from app.curriculum.model import Curriculum
from app.records.policy import NoSuchQualification, QualificationPolicy, policy_from


def test_the_policy_is_that_of_the_content(curriculum: Curriculum):
    policy = policy_from(curriculum)
    assert set(policy.qualifications) == set(curriculum.qualifications)
    for name, asked in curriculum.qualifications.items():
        rule = policy.rule(name)
        assert rule.policy_version == curriculum.policy_version
        assert set(rule.modules) <= set(curriculum.modules)
        for field in ("validity_months", "continuity_months", "late_entry_days", "grace_days",
                      "evidence_months", "due_soon_days", "practicals_required",
                      "trainers_required", "prerequisites", "modules"):  # fmt: skip
            assert getattr(rule, field) == getattr(asked, field)


def test_the_defaults_are_the_design_of_the_assessment():
    # Assessment section 5: 24 months, 6 months, 14 days, 30 days, 12 months; 1 day ahead.
    rule = QualificationPolicy(id="x", modules=("x",))
    assert (rule.validity_months, rule.continuity_months) == (24, 6)
    assert (rule.late_entry_days, rule.grace_days, rule.evidence_months) == (14, 30, 12)
    assert (rule.due_soon_days, rule.ahead_days) == (30, 1)


def test_impossible_numbers_are_refused():
    with pytest.raises(ValueError, match="-1"):
        QualificationPolicy(id="x", modules=("x",), grace_days=-1)
    with pytest.raises(ValueError, match="3 trainers"):
        QualificationPolicy(id="x", modules=("x",), trainers_required=3)


def test_an_unknown_qualification_is_named(curriculum: Curriculum):
    with pytest.raises(NoSuchQualification, match="deep-diver"):
        policy_from(curriculum).rule("deep-diver")
