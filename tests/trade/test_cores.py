"""Cores: an exact binomial sample, against scipy and statsmodels."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binom, binomtest
from statsmodels.stats.proportion import proportion_confint

from app.trade.cores import core_check, cores_needed, cores_proof, filled_lower_bound
from app.trade.errors import OutOfRange

samples = st.integers(3, 200).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n)))
confidences = st.sampled_from([0.8, 0.9, 0.95, 0.99])


@pytest.mark.parametrize(
    ("confidence", "share", "count"), [(0.90, 0.90, 22), (0.95, 0.90, 29), (0.95, 0.95, 59)]
)
def test_the_published_numbers_of_cores(confidence: float, share: float, count: int) -> None:
    # Success-run theorem, n = ln(1−C)/ln R rounded up.
    assert cores_needed(confidence, share) == count


@pytest.mark.parametrize(
    ("confidence", "share", "count"), [(0.5, 0.5, 1), (0.75, 0.5, 2), (0.875, 0.5, 3)]
)
def test_where_the_logarithms_meet_exactly_no_core_is_added(
    confidence: float, share: float, count: int
) -> None:
    assert cores_needed(confidence, share) == count


@given(st.floats(0.5, 0.999), st.floats(0.5, 0.99))
def test_one_core_fewer_would_not_do_by_scipy(confidence: float, share: float) -> None:
    count = cores_needed(confidence, share)
    allowed = 1 - confidence
    assert binom.pmf(count, count, share) <= allowed * (1 + 1e-9)
    if count > 1:
        assert binom.pmf(count - 1, count - 1, share) > allowed * (1 - 1e-9)


@pytest.mark.parametrize(("filled", "cores", "bound"), [(3, 3, 0.4642), (22, 22, 0.9006)])
def test_the_lower_bounds_worked_out_by_others(filled: int, cores: int, bound: float) -> None:
    # beta.ppf(1 − C, x, n − x + 1) at 90 %.
    assert round(filled_lower_bound(filled, cores, 0.90), 4) == bound


@given(samples, confidences)
def test_the_lower_bound_against_scipy_and_statsmodels(
    sample: tuple[int, int], confidence: float
) -> None:
    filled, cores = sample
    ours = filled_lower_bound(filled, cores, confidence)
    test = binomtest(filled, cores, alternative="greater")
    theirs = test.proportion_ci(confidence_level=confidence, method="exact").low
    assert ours == pytest.approx(theirs, abs=1e-9)
    # One side at C is the lower end of a two-sided interval with 2(1 − C) outside.
    low, _ = proportion_confint(filled, cores, alpha=2 * (1 - confidence), method="beta")
    assert ours == pytest.approx(float(low), abs=1e-9)


@given(samples, confidences)
def test_one_more_filled_core_never_proves_less(sample: tuple[int, int], confidence: float) -> None:
    filled, cores = sample
    if filled < cores:
        fewer = filled_lower_bound(filled, cores, confidence)
        assert fewer <= filled_lower_bound(filled + 1, cores, confidence)


def test_fewer_than_three_cores_are_counts_only() -> None:
    proof = cores_proof(2, 2, 0.90, 0.90)
    assert (proof.lower_bound, proof.verdict, proof.is_within) == (None, "counts-only", False)
    with pytest.raises(OutOfRange, match="cores is 2"):
        filled_lower_bound(2, 2, 0.90)


@pytest.mark.parametrize(
    ("filled", "cores", "verdict"),
    [(22, 22, "shown"), (21, 21, "not-shown"), (37, 38, "shown"), (36, 37, "not-shown")],
)
def test_ninety_percent_at_ninety_percent(filled: int, cores: int, verdict: str) -> None:
    # 22 without a failure, 38 with one: the published sample sizes for 90/90.
    proof = cores_proof(filled, cores, 0.90, 0.90)
    assert proof.verdict == verdict
    assert proof.is_within is (verdict == "shown")
    # With one failure the chance of that sample at exactly 90 % decides, by scipy.
    assert bool(binom.sf(filled - 1, cores, 0.90) <= 0.10) is proof.is_within


def test_where_the_count_decides_exactly_the_proof_agrees_with_it() -> None:
    # 1 − 0.5³ = 0.875: three filled cores show one half, whatever the bound is rounded to.
    assert cores_proof(3, 3, 0.875, 0.5).is_within


def test_a_core_is_filled_from_nine_tenths_on() -> None:
    # MoRTH 2803.9: crack at least 90 % filled.
    assert core_check(0.90).is_within
    assert not core_check(0.89).is_within


def test_more_filled_cores_than_cores_are_refused() -> None:
    with pytest.raises(OutOfRange, match="filled is 4"):
        cores_proof(4, 3, 0.90, 0.90)
