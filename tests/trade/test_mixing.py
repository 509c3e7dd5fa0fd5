"""A and B by volume and by mass, and hand-mixed batches."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.mixing import (
    hand_batches,
    mass_ratio,
    split_by_mass,
    split_by_volume,
    weigh_out,
)

parts = st.floats(0.1, 20)
densities = st.floats(0.8, 2)


def test_two_to_one_by_volume_is_another_ratio_by_mass():
    # Definition of density: 2 × 1.15 to 1 × 0.98 = 2.347 to 1.
    assert mass_ratio(2, 1, 1.15, 0.98) == pytest.approx(2.347, abs=5e-4)


@given(st.floats(1, 1e5), parts, parts)
def test_the_parts_add_up_and_keep_the_ratio(total, a, b):
    shared = split_by_volume(total, a, b)
    assert shared.a_ml + shared.b_ml == pytest.approx(total)
    assert shared.a_ml * b == pytest.approx(shared.b_ml * a)
    weighed = split_by_mass(total, a, b)
    assert (weighed.a_g, weighed.b_g) == pytest.approx((shared.a_ml, shared.b_ml))


@given(st.floats(1, 1e5), parts, parts, densities, densities)
def test_what_is_weighed_out_has_the_mass_ratio(total, a, b, density_a, density_b):
    weighed = weigh_out(total, a, b, density_a, density_b)
    assert weighed.a_g / weighed.b_g == pytest.approx(mass_ratio(a, b, density_a, density_b))
    assert weighed.a_g / density_a + weighed.b_g / density_b == pytest.approx(total)


@given(st.floats(1, 1e5), st.floats(1, 1e4))
def test_batches_cover_the_total_and_none_is_too_large_or_too_many(total, limit):
    batches = hand_batches(total, limit)
    assert batches.count * batches.each_ml == pytest.approx(total)
    assert batches.each_ml <= limit * (1 + 1e-8)
    assert (batches.count - 1) * limit < total


def test_nothing_to_mix_is_no_batch():
    assert hand_batches(0, 300).count == 0
