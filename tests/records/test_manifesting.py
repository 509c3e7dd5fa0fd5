"""A signed record keeps name, time and meaning as they were (21 CFR 11.50)."""

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from app.records.deciding.manifesting import MEANINGS, signed
from app.records.events import Quiz, Suspend
from app.records.ledger.encoding import data_of, event_of
from app.records.ledger.resending import without_arrival

COMMON = {
    "id": "e1",
    "occurred_on": date(2024, 3, 1),
    "zone": "UTC",
    "recorded_at": datetime(2024, 3, 1, 12, tzinfo=UTC),
    "person": "W",
}
SUSPEND = Suspend(**COMMON, qualification="lead", decider="M1", reason="seen")


def test_name_time_and_meaning_are_kept_and_read_back():
    event = signed(SUSPEND, "Olga Invented")
    assert event.signature.printed_name == "Olga Invented"
    assert event.signature.signed_at == SUSPEND.recorded_at
    assert event.signature.meaning == MEANINGS["suspend"]
    assert event_of(data_of(event)) == event


def test_what_nobody_signs_cannot_be_signed():
    with pytest.raises(KeyError):
        signed(Quiz(**COMMON, module="m", passed=True), "Olga Invented")


def test_two_sendings_of_one_form_differ_in_their_times_only():
    later = replace(SUSPEND, recorded_at=datetime(2024, 3, 1, 13, tzinfo=UTC))
    first, again = signed(SUSPEND, "Olga Invented"), signed(later, "Olga Invented")
    assert first != again
    assert without_arrival(first) == without_arrival(again)
    assert without_arrival(first) != without_arrival(signed(later, "Somebody Else"))
