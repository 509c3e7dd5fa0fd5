"""The conditions of the grinder table: 29 CFR 1926.1153 table 1 (xii)."""

from typing import Any

import pint
import pytest

from app.trade.dust_collector import collector_airflow, collector_check, table_1_conditions
from app.trade.errors import NotAChoice, OutOfRange

UNITS = pint.UnitRegistry()
KEPT: dict[str, Any] = {
    "has_shroud": True,
    "is_as_instructed": True,
    "airflow_m3_per_h": 220,
    "wheel_mm": 127,
    "filter_share": 0.99,
    "cleans_filter": True,
    "indoors": True,
    "has_exhaust": True,
}


@pytest.mark.parametrize(("wheel_in", "cfm"), [(4.5, 112.5), (5, 125), (7, 175)])
def test_twenty_five_cfm_an_inch(wheel_in: float, cfm: float) -> None:
    # trade-facts §7 example 8; pint turns the units.
    wheel_mm = UNITS.Quantity(wheel_in, "inch").to("mm").magnitude
    airflow = UNITS.Quantity(collector_airflow(wheel_mm), "m ** 3 / hour")
    assert airflow.to("ft ** 3 / min").magnitude == pytest.approx(cfm, rel=1e-12)


def test_a_collector_that_draws_too_little_is_out_of_limits() -> None:
    # 125 cfm is 212.4 m³/h.
    assert collector_check(213, 127).is_within
    assert not collector_check(212, 127).is_within


def test_with_everything_in_place_the_table_may_be_used() -> None:
    found = table_1_conditions(**KEPT)
    assert (found.missing, found.is_within) == ((), True)


@pytest.mark.parametrize(
    ("change", "missing"),
    [
        ({"has_shroud": False}, "shroud"),
        ({"is_as_instructed": False}, "instructions"),
        ({"airflow_m3_per_h": 200}, "airflow"),
        ({"wheel_mm": 178}, "airflow"),
        ({"filter_share": 0.989}, "filter"),
        ({"cleans_filter": False}, "filter-cleaning"),
        ({"has_exhaust": False}, "exhaust"),
    ],
)
def test_each_single_lapse_takes_the_table_away(change: dict[str, Any], missing: str) -> None:
    found = table_1_conditions(**KEPT | change)
    assert (found.missing, found.is_within) == ((missing,), False)


def test_outdoors_nobody_asks_for_an_exhaust() -> None:
    assert table_1_conditions(**KEPT | {"indoors": False, "has_exhaust": False}).is_within


def test_a_filter_above_all_dust_and_a_flag_as_a_word_are_refused() -> None:
    with pytest.raises(OutOfRange, match="filter_share"):
        table_1_conditions(**KEPT | {"filter_share": 99})
    with pytest.raises(NotAChoice, match="has_exhaust"):
        table_1_conditions(**KEPT | {"has_exhaust": "no"})
