"""One batch: its clock, its largest size, the warning. Source: EM 1110-2-2002 §6-22c(4)."""

import dataclasses
from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.batch_clock import (
    batch_clock,
    batch_limit,
    batch_size_warning,
    minutes_left,
    pot_life_check,
)
from app.trade.errors import OutOfRange


@given(st.integers(0, 1439), st.integers(1, 2000))
def test_the_batch_must_be_out_when_the_calendar_says_so(mixed_at: int, life: int) -> None:
    # Against datetime: a mixing time on some day plus the pot life.
    day = datetime(2024, 3, 10)
    out_by = day + timedelta(minutes=batch_clock(mixed_at, life).out_by_min)
    assert out_by == day + timedelta(minutes=mixed_at) + timedelta(minutes=life)


def test_a_reserve_brings_the_limit_forward() -> None:
    # By hand: mixed 09:00, 40 min less a quarter is 30 min: out by 09:30, 5 min left at 09:25.
    clock = batch_clock(540, 40, elapsed_min=25, reserve=0.25)
    assert (clock.usable_min, clock.out_by_min, clock.left_min) == (30, 570, 5)
    assert clock.is_within


def test_an_overdue_batch_says_by_how_much_and_is_not_rounded_up_to_zero() -> None:
    assert minutes_left(30, 34) == -4
    clock = batch_clock(540, 30, elapsed_min=34)
    assert (clock.left_min, clock.is_within) == (-4, False)
    assert batch_clock(540, 30, elapsed_min=30).is_within


def test_the_check_at_the_wall_takes_the_last_minute_and_no_more() -> None:
    assert pot_life_check(30, 30).is_within
    assert not pot_life_check(30.1, 30).is_within


@given(st.floats(1, 1000), st.floats(1, 1000), st.floats(0, 0.9))
def test_the_largest_batch_is_placed_exactly_when_the_reserve_begins(
    life: float, rate: float, reserve: float
) -> None:
    minutes = batch_limit(life, rate, reserve) / rate
    left = minutes_left(life, minutes)
    assert left == pytest.approx(life * reserve, abs=1e-9 * life)


def test_a_large_batch_is_a_warning_without_a_number() -> None:
    # MIL-HDBK-1110 / UFC 3-190-06: a larger batch gels sooner; by how much is not published.
    large = batch_size_warning(2000, 200)
    assert (large.verdict, large.is_within) == ("larger-gels-sooner", False)
    assert batch_size_warning(200, 200).is_within
    numbers = {
        field.name
        for field in dataclasses.fields(large)
        if type(getattr(large, field.name)) in (int, float)
    }
    assert numbers == {"batch_ml", "tested_ml"}  # what was given, nothing worked out


def test_keeping_back_the_whole_pot_life_is_refused() -> None:
    with pytest.raises(OutOfRange, match="reserve is 1"):
        batch_limit(30, 50, reserve=1)
