"""The sequential test against the published rule and against an independent calculation."""

from math import log

import pytest
from scipy.stats import binom

from app.curriculum.questions.mastery import Sequence, decide_mastery, exact_odds

PLAN = Sequence()


def test_weights_and_bounds():
    """Reference: Wald 1947: ln(p1/p0), ln((1−p1)/(1−p0)), ±ln((1−β)/α); six decimals."""
    assert round(PLAN.weight(True), 6) == 0.405465
    assert round(PLAN.weight(False), 6) == -1.386294
    assert [round(bound, 6) for bound in PLAN.bounds()] == [-2.944439, 2.944439]


# Reference: Frick 1986's rule worked out for p0 = 0.60, p1 = 0.90, α = β = 0.05.
@pytest.mark.parametrize(
    ("answered", "passes_from", "fails_to"),
    [(8, 8, 4), (9, 9, 5), (10, 10, 6), (11, 11, 6), (12, 11, 7), (13, 12, 8)],
)
def test_where_the_test_stops(answered, passes_from, fails_to):
    verdicts = [decide_mastery(right, answered, PLAN) for right in range(answered + 1)]
    assert [right for right, verdict in enumerate(verdicts) if verdict == "pass"] == list(
        range(passes_from, answered + 1)
    )
    assert [right for right, verdict in enumerate(verdicts) if verdict == "not-yet"] == list(
        range(fails_to + 1)
    )


def test_there_is_no_stop_before_the_shortest_and_always_one_at_the_longest():
    assert all(decide_mastery(n, n, PLAN) == "go-on" for n in range(8))
    assert decide_mastery(0, 7, PLAN) == "go-on"
    assert decide_mastery(20, 25, PLAN) == "pass"
    assert decide_mastery(19, 25, PLAN) == "not-yet"


def test_there_is_no_stop_while_a_must_know_topic_is_open():
    assert decide_mastery(8, 8, PLAN, topics_covered=False) == "go-on"
    assert decide_mastery(0, 12, PLAN, topics_covered=False) == "go-on"
    assert decide_mastery(24, 25, PLAN, topics_covered=False) == "pass"


@pytest.mark.parametrize(
    ("knows", "passes", "length"), [(0.60, 0.0499, 11.83), (0.90, 0.9636, 12.85)]
)
def test_the_exact_odds(knows, passes, length):
    odds = exact_odds(knows, PLAN)
    assert round(odds.passes, 4) == passes
    assert round(odds.mean_length, 2) == length


@pytest.mark.parametrize("knows", [0.5, 0.7, 0.85])
def test_the_odds_agree_with_counting_every_order_of_answers(knows):
    """Reference: every sequence of right and wrong of a short test, one by one."""
    plan = Sequence(shortest=3, longest=10, right_at_longest=8)
    passes = length = 0.0
    for bits in range(2**10):
        answers = [bool(bits >> place & 1) for place in range(10)]
        chance = knows ** sum(answers) * (1 - knows) ** (10 - sum(answers))
        for n in range(1, 11):
            verdict = decide_mastery(sum(answers[:n]), n, plan)
            if verdict != "go-on":
                passes += chance * (verdict == "pass")
                length += chance * n
                break
    odds = exact_odds(knows, plan)
    assert odds.passes == pytest.approx(passes, abs=1e-12)
    assert odds.mean_length == pytest.approx(length, abs=1e-10)


def test_a_test_of_fixed_length_is_a_binomial():
    """Reference: scipy.stats.binom; 8 of 10 at a true 60 % passes 16.7 % of the time."""
    plan = Sequence(shortest=10, longest=10, right_at_longest=8)
    assert exact_odds(0.6, plan).passes == pytest.approx(binom.sf(7, 10, 0.6), abs=1e-12)
    assert round(exact_odds(0.6, plan).passes, 3) == 0.167
    assert exact_odds(0.6, plan).mean_length == pytest.approx(10)


def test_what_cannot_be_is_refused():
    with pytest.raises(ValueError, match="9 right of 8"):
        decide_mastery(9, 8, PLAN)
    with pytest.raises(ValueError, match="share known"):
        exact_odds(1.2, PLAN)
    for wrong in ({"weak": 0.9, "strong": 0.6}, {"alpha": 0.7}, {"shortest": 30}):
        with pytest.raises(ValueError):
            Sequence(**wrong)
    assert PLAN.bounds()[1] == pytest.approx(log(19))
