"""A watched repair passes only if every rule of the assessment does."""

from fractions import Fraction

import pytest

from app.curriculum.model import ChecklistItem
from app.curriculum.scoring import (
    JUDGEMENTS,
    NoCriticalItemApplied,
    OutcomeMissing,
    OutcomeUnknown,
    ReasonMissing,
    Seen,
    score_observation,
)

CUT = Fraction("0.8")


def item(name, critical=False):
    return ChecklistItem.model_validate({"id": name, "critical": critical, "text": {"en": "x"}})


CRITICAL = [item(f"c{number}", critical=True) for number in range(8)]
OTHERS = [item(f"o{number}") for number in range(10)]
ITEMS = [*CRITICAL, *OTHERS]


def seen(**changed):
    return {item.id: changed.get(item.id, Seen("done")) for item in ITEMS}


def score(judgement="works-safely-alone", **changed):
    return score_observation(ITEMS, seen(**changed), judgement, CUT)


def test_a_clean_repair_passes():
    result = score()
    assert result.passed
    assert result.reasons == ()
    assert (result.critical_done, result.critical_applicable, result.share) == (8, 8, 1)


@pytest.mark.parametrize("outcome", ["done-when-prompted", "not-done", "not-seen"])
def test_seven_of_eight_critical_items_do_not_pass(outcome):
    """Scenario 14 of the standing rules: 7 of 8 critical items done is no counted practical."""
    result = score(c3=Seen(outcome))
    assert not result.passed
    assert [(r.kind, r.item, r.outcome) for r in result.reasons] == [
        ("critical-not-done", "c3", outcome)
    ]


def test_the_cut_on_the_other_items_is_inclusive():
    assert score(o0=Seen("not-done"), o1=Seen("done-when-prompted")).passed
    below = score(o0=Seen("not-done"), o1=Seen("done-when-prompted"), o2=Seen("not-seen"))
    assert not below.passed
    assert below.share == Fraction(7, 10)
    assert [r.kind for r in below.reasons] == ["share-below-cut"]


def test_items_that_do_not_apply_leave_the_share():
    away = {f"o{n}": Seen("does-not-apply") for n in range(5)}
    result = score(**away, o5=Seen("not-done"))
    assert result.share == Fraction(4, 5)
    assert result.passed
    assert score(**{f"o{n}": Seen("does-not-apply") for n in range(10)}).share is None


@pytest.mark.parametrize("judgement", JUDGEMENTS)
def test_the_overall_judgement_must_be_safe_alone_or_better(judgement):
    result = score(judgement)
    assert result.passed == (judgement in ("works-safely-alone", "could-show-others"))


def test_a_measured_value_out_of_tolerance_is_not_done():
    result = score(c0=Seen("done", rule_met=False))
    assert [(r.kind, r.item) for r in result.reasons] == [("critical-out-of-tolerance", "c0")]
    assert result.critical_done == 7
    assert score(c0=Seen("done", rule_met=True)).passed
    assert score(o0=Seen("done", rule_met=False)).share == Fraction(9, 10)


def test_a_critical_item_whose_limit_nobody_knows_is_no_pass():
    ruled = ChecklistItem.model_validate(
        {"id": "c0", "critical": True, "text": {"en": "x"}, "rule": "within(value=x, low=1)"}
    )
    items = [ruled, *ITEMS[1:]]
    unjudged = score_observation(items, seen(c0=Seen("done")), "works-safely-alone", CUT)
    assert [(r.kind, r.item) for r in unjudged.reasons] == [("critical-not-judged", "c0")]
    judged = seen(c0=Seen("done", rule_met=True))
    assert score_observation(items, judged, "works-safely-alone", CUT).passed


def test_a_critical_item_that_does_not_apply_needs_a_reason():
    with pytest.raises(ReasonMissing, match="c0"):
        score(c0=Seen("does-not-apply", "  "))
    result = score(c0=Seen("does-not-apply", "no mixing tube on this job"))
    assert result.passed
    assert result.critical_applicable == 7


def test_without_any_critical_item_there_is_no_valid_record():
    with pytest.raises(NoCriticalItemApplied):
        score(**{f"c{n}": Seen("does-not-apply", "why not") for n in range(8)})


def test_every_reason_is_told_at_once():
    changed = {f"o{n}": Seen("not-done") for n in range(3)}
    result = score("needs-guiding", c0=Seen("not-done"), c1=Seen("not-seen"), **changed)
    assert [r.kind for r in result.reasons] == [
        "critical-not-done",
        "critical-not-done",
        "share-below-cut",
        "judgement-too-low",
    ]


def test_nothing_is_scored_with_an_outcome_missing_or_unknown():
    part = seen()
    del part["o9"]
    with pytest.raises(OutcomeMissing, match="o9"):
        score_observation(ITEMS, part, "works-safely-alone", CUT)
    with pytest.raises(OutcomeUnknown, match="perhaps"):
        score(o0=Seen("perhaps"))
    with pytest.raises(OutcomeUnknown, match="great"):
        score("great")
    with pytest.raises(OutcomeUnknown, match="stray"):
        score_observation(ITEMS, {**seen(), "stray": Seen("done")}, "works-safely-alone", CUT)
