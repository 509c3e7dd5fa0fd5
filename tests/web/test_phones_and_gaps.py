"""What is still on a phone shows as a gap in its numbers; its clock is shown, never trusted."""

from datetime import UTC, datetime, timedelta, timezone

import pytest

from app.accounts.devices import all_devices
from app.database import reading
from app.web.outbox.phone_time import PhoneTime
from app.web.outbox.phones import gaps_by_device, label_of
from app.workbook.receipts import Gap, gaps_between, receipts_from
from tests.web.phone import Phone, send_all

NOON = datetime(2026, 3, 2, 12, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("arrived", "last", "gaps"),
    [
        (set(), 0, []),
        (set(), 3, [Gap(1, 3)]),
        ({1, 2, 3}, 3, []),
        ({1, 2, 5}, 7, [Gap(3, 4), Gap(6, 7)]),
        ({2}, 2, [Gap(1, 1)]),
        ({1, 9}, 1, []),
    ],
)
def test_gaps_are_the_runs_of_numbers_that_did_not_arrive(arrived, last, gaps):
    assert gaps_between(arrived, last) == gaps
    missing = set(range(1, last + 1)) - arrived
    assert sum(gap.count for gap in gaps) == len(missing)


def test_a_gap_closes_when_the_rest_arrives(app, ola, phone, steps):
    first, kept_back, third = (phone.step(step) for step in steps[:3])
    phone.step(steps[3])  # numbered, and still on the phone
    send_all(ola, third, first, issued={phone.device: 4})
    with app.app_context(), reading() as connection:
        assert gaps_by_device(connection) == {phone.device: [Gap(2, 2), Gap(4, 4)]}
    send_all(ola, kept_back)
    with app.app_context(), reading() as connection:
        assert gaps_by_device(connection) == {phone.device: [Gap(4, 4)]}


def test_what_was_thrown_away_leaves_no_gap(app, ola, phone, steps):
    phone.step(steps[0])
    phone.sequence = 0
    send_all(ola, phone.item("thrown-away", {"kind": "step-done"}))
    with app.app_context(), reading() as connection:
        assert gaps_by_device(connection) == {}
        (receipt,) = receipts_from(connection, phone.device)
    assert receipt.result == {"thrown_away": "step-done"}


def test_nobody_counts_up_somebody_elses_phone(app, ola, cast, phone, steps):
    send_all(ola, phone.step(steps[0]))
    other = Phone(cast.add("ben.worker", "worker"))
    send_all(cast.sign_in("ben.worker"), other.step(steps[0]), issued={phone.device: 99})
    with app.app_context(), reading() as connection:
        assert gaps_by_device(connection) == {}


def test_a_receipt_holds_the_three_times(app, ola, phone, steps, clock):
    send_all(ola, phone.step(steps[0]))
    with app.app_context(), reading() as connection:
        (receipt,) = receipts_from(connection, phone.device)
        (device,) = all_devices(connection)
    assert (receipt.claimed_at, receipt.claimed_offset_min) == (datetime(2026, 3, 2, 14), -300)
    assert receipt.server_seen_at == datetime(2026, 3, 2, 13, 30)
    assert receipt.arrived_at == clock().replace(tzinfo=None)
    assert device.label == "Computer"


@pytest.mark.parametrize(
    ("claimed", "seen", "arrived", "doubt", "likely"),
    [
        (-2, -3, 0, "", -2),
        (-2, None, 0, "", -2),
        (5, -3, 0, "after-arrival", 0),
        (-9, -3, 0, "before-last-seen", -3),
        (-9, 2, 0, "before-last-seen", 0),
    ],
)
def test_a_wrong_clock_is_flagged_and_the_nearest_possible_moment_is_used(
    claimed, seen, arrived, doubt, likely
):
    def at(hours):
        return None if hours is None else NOON + timedelta(hours=hours)

    time = PhoneTime(at(claimed).astimezone(timezone(timedelta(hours=-5))), at(seen), at(arrived))
    assert time.doubt == doubt
    assert time.likely_at == at(likely)


@pytest.mark.parametrize(
    ("browser", "label"),
    [
        ("Mozilla/5.0 (Linux; Android 14; Pixel) AppleWebKit/537.36 Mobile Safari", "Android"),
        ("Mozilla/5.0 (iPhone; CPU iPhone OS 17_0 like Mac OS X) AppleWebKit", "iPhone"),
    ],
)
def test_a_phone_has_a_first_name(app, browser, label):
    with app.test_request_context():
        assert label_of(browser) == label
        assert label_of("curl/8") == "Computer"
