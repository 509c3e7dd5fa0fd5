"""Month arithmetic against dateutil.relativedelta; civil days against the IANA time zones."""

from datetime import UTC, date, datetime

import pytest
from dateutil.relativedelta import relativedelta
from hypothesis import given
from hypothesis import strategies as st

from app.records.days import add_months, civil_day, end_of_knowledge


@given(st.dates(date(1990, 1, 1), date(2200, 1, 1)), st.integers(0, 240))
def test_adding_months_agrees_with_dateutil(start: date, months: int):
    assert add_months(start, months) == start + relativedelta(months=months)


@pytest.mark.parametrize(
    ("months", "expected"),
    # Assessment section 5, "Months": always from the original day.
    [(24, date(2026, 2, 28)), (48, date(2028, 2, 29))],
)
def test_a_leap_day_is_pinned_and_comes_back(months: int, expected: date):
    assert add_months(date(2024, 2, 29), months) == expected


def test_months_are_not_taken_back():
    with pytest.raises(ValueError, match="-1"):
        add_months(date(2024, 2, 29), -1)


def test_the_day_is_the_day_at_the_site():
    late_evening = datetime(2024, 5, 2, 3, 0, tzinfo=UTC)  # 22:00 in Chicago (UTC-5 in May)
    assert civil_day(late_evening, "America/Chicago") == date(2024, 5, 1)
    assert civil_day(late_evening, "Asia/Tokyo") == date(2024, 5, 2)


@pytest.mark.parametrize("zone", ["", "Chicago", "../etc", "America"])
def test_an_unknown_zone_is_refused(zone: str):
    with pytest.raises(ValueError, match="no time zone"):
        civil_day(datetime(2024, 5, 2, tzinfo=UTC), zone)


def test_a_time_without_zone_is_refused():
    with pytest.raises(ValueError, match="no time zone"):
        civil_day(datetime(2024, 5, 2), "UTC")
    with pytest.raises(ValueError, match="no time zone"):
        end_of_knowledge(datetime(2024, 5, 2))


def test_a_day_is_known_to_its_end():
    assert end_of_knowledge(date(2024, 3, 15)) < datetime(2024, 3, 16, tzinfo=UTC)
    assert end_of_knowledge(date(2024, 3, 15)) > datetime(2024, 3, 15, 23, 59, 59, tzinfo=UTC)
