"""The grinder table, the respirator, compressed air: 29 CFR 1926.1153 and 1926.302(b)(4)."""

import pint
import pytest

from app.trade.dust import (
    GRINDER_TABLE,
    compressed_air_check,
    respirator_check,
    respirator_for_grinding,
)
from app.trade.errors import NotAChoice, OutOfRange


@pytest.mark.parametrize(
    ("indoors", "hours", "in_place", "answer", "apf"),
    [
        # trade-facts §7 example 7; 29 CFR 1926.1153 table 1 (xii), (c)(1)
        (True, 4.0, True, "none", 0),
        (True, 4.01, True, "apf-10", 10),
        (False, 10, True, "none", 0),
        (True, 1, False, "table-does-not-apply", None),
        (False, 1, False, "table-does-not-apply", None),
        (True, 0, True, "none", 0),
        (True, 24, True, "apf-10", 10),
    ],
)
def test_the_table_answers_only_with_every_control_in_place(
    indoors: bool, hours: float, in_place: bool, answer: str, apf: int | None
) -> None:
    found = respirator_for_grinding(indoors, hours, in_place)
    assert (found.answer, found.apf, found.table_applies) == (answer, apf, in_place)


def test_the_table_covers_every_hour_of_a_day_once_in_both_places() -> None:
    for indoors in (False, True):
        for tenth in range(241):
            rows = [
                row
                for row in GRINDER_TABLE
                if row.indoors == indoors and row.over_h < tenth / 10 <= row.to_h
            ]
            assert len(rows) == 1, (indoors, tenth / 10)


@pytest.mark.parametrize(
    ("hours", "in_place", "worn_apf", "is_within"),
    [(6, True, 0, False), (6, True, 10, True), (3, True, 0, True), (3, False, 1000, False)],
)
def test_what_is_worn_is_within_when_the_table_applies_and_it_is_enough(
    hours: float, in_place: bool, worn_apf: float, is_within: bool
) -> None:
    assert respirator_check(True, hours, in_place, worn_apf).is_within is is_within


@pytest.mark.parametrize("indoors", ["yes", 1, None])
def test_a_flag_that_is_neither_true_nor_false_is_refused(indoors: bool) -> None:
    with pytest.raises(NotAChoice, match="indoors"):
        respirator_for_grinding(indoors, 3, True)


def test_more_hours_than_a_day_are_refused() -> None:
    with pytest.raises(OutOfRange, match=r"24\.5"):
        respirator_for_grinding(True, 24.5, True)


def test_compressed_air_stays_below_thirty_psi() -> None:
    # 29 CFR 1926.302(b)(4): less than 30 psi. pint turns the unit.
    limit = pint.UnitRegistry()("30 psi").to("MPa").magnitude
    assert compressed_air_check(limit * 0.999, True, True).is_within
    at_limit = compressed_air_check(limit * (1 + 1e-9), True, True)
    assert (at_limit.problems, at_limit.is_within) == (("pressure",), False)
    assert at_limit.below_mpa == pytest.approx(limit, rel=1e-9)


@pytest.mark.parametrize(
    ("captured", "guarded", "problems"),
    [
        (False, True, ("dust",)),  # 29 CFR 1926.1153(f)(2), from memory
        (True, False, ("guard",)),  # 29 CFR 1926.302(b)(4)
        (False, False, ("dust", "guard")),
    ],
)
def test_blowing_off_needs_capture_and_guards(
    captured: bool, guarded: bool, problems: tuple[str, ...]
) -> None:
    assert compressed_air_check(0.1, captured, guarded).problems == problems
