"""A worker reads a supervised repair in full and says: I did this. Once, and nobody else may."""

from datetime import UTC, datetime

import pytest
from flask.testing import FlaskClient
from quiz_taker import opened, sent

from app.database import reading, writing
from app.ids import new_id
from app.records.events import CounterEntry, Event, Practical
from app.records.ledger.door import all_events, append
from app.records.observation import Measured, Observation, PortEntry, Signature, StepOutcome
from tests.conftest import PASSWORD

MOMENT = datetime(2026, 3, 2, 14, tzinfo=UTC)
SEEN = Observation(
    items=(
        StepOutcome(module="ratio-sample", step="ratio-in-tolerance", outcome="done"),
        StepOutcome(module="ratio-sample", step="ratio-read", outcome="not-done", critical=False),
    ),
    judgement="works-safely-alone",
    signature=Signature(printed_name="Ana Invented", meaning="I watched.", signed_at=MOMENT),
    measured=(
        Measured(
            name="sample_a", value="100", unit="ml", module="ratio-sample",
            step="ratio-in-tolerance", is_within=True,
        ),
    ),
    ports=(
        PortEntry(
            port=1, opened_at="09:05", next_port=2, shown_at="09:14",
            pressure_mpa="0.13789514586", note="Slow at first.",
        ),
    ),
    comment="Calm hands.",
)  # fmt: skip


@pytest.fixture
def repair(keep, ola_id, clock) -> str:
    """A repair of Ola's, signed by a trainer."""
    return keep(
        Practical, clock().date(), person=ola_id, qualification="pump-operator", job="job-1",
        trainer="trainer-1", recorded_by="trainer-1", observation=SEEN,
        critical=SEEN.items[:1],
    )  # fmt: skip


@pytest.fixture
def kept(app):
    def read() -> list[Event]:
        with app.app_context(), reading() as connection:
            return [e for e in all_events(connection) if e.kind == "worker-countersign"]

    return read


def test_it_is_listed_until_it_is_confirmed_and_then_says_so(
    ola: FlaskClient, repair, kept, ola_id
):
    assert "Repairs to confirm: 1" in opened(ola, "/my-standing").words
    assert "Repairs to confirm: 1" in opened(ola, "/learn").words
    assert f'href="/repairs-to-confirm/{repair}"' in opened(ola, "/repairs-to-confirm").html
    page = opened(ola, f"/repairs-to-confirm/{repair}")
    for words in (
        # 100 mL are 3.38 fl oz; 1 MPa is 145.0377 psi (both NIST SP 811).
        "the ratio was in tolerance Critical Done Side A caught: 3.38 fl oz · within limits",
        "1 09:05 2 09:14 20 psi Note: Slow at first.",
        "wrote both down Not done",
        "Works safely alone",
        "Calm hands.",
        "I did this repair, and it happened as written here.",
    ):
        assert words in page.words, page.words
    after = sent(ola, page.path, password=PASSWORD)
    assert "You did this repair" in after.words
    assert after.words.count("You confirmed this repair.") == 1
    assert "Your password" not in after.words
    (event,) = kept()
    assert (event.person, event.target, event.recorded_by) == (ola_id, repair, ola_id)
    assert event.signature.meaning == "I did this repair, and it happened as written here."
    assert event.signature.language == "en"
    assert "Repairs to confirm" not in opened(ola, "/my-standing").words
    assert "Repairs to confirm" not in opened(ola, "/learn").words
    assert "Nothing waits for your word." in opened(ola, "/repairs-to-confirm").words


def test_sent_twice_it_is_one_record_with_the_first_receipt(ola, repair, kept):
    first = sent(ola, f"/repairs-to-confirm/{repair}", password=PASSWORD)
    again = sent(ola, f"/repairs-to-confirm/{repair}", password=PASSWORD)
    assert len(kept()) == 1
    assert first.words == again.words


def test_a_wrong_password_or_none_signs_nothing(ola, repair, kept):
    for password, words in (("", "Type your password again."), ("no", "Nothing was signed.")):
        page = sent(ola, f"/repairs-to-confirm/{repair}", password=password)
        assert page.status == 422
        assert words in page.words
    assert kept() == []


def test_nobody_else_sees_or_confirms_it(cast, repair, kept):
    cast.add("pat.other", "worker")
    other = cast.sign_in("pat.other")
    assert opened(other, f"/repairs-to-confirm/{repair}").status == 404
    assert sent(other, f"/repairs-to-confirm/{repair}", password=PASSWORD).status == 404
    assert opened(other, "/repairs-to-confirm/no-such-record").status == 404
    assert kept() == []


def test_a_void_repair_is_not_asked_about_and_not_confirmed(app, ola, ola_id, repair, kept, clock):
    with app.app_context(), writing() as connection:
        entry = CounterEntry(
            id=new_id(), occurred_on=clock().date(), zone="UTC", recorded_at=clock(),
            person=ola_id, target=repair, reason="Wrong person.",
        )  # fmt: skip
        append(connection, entry)
    assert "Nothing waits for your word." in opened(ola, "/repairs-to-confirm").words
    page = sent(ola, f"/repairs-to-confirm/{repair}", password=PASSWORD)
    assert page.status == 422
    assert "made void" in page.words
    assert kept() == []


def test_the_safety_officer_reads_it_with_the_repair(cast, ola, repair, kept):
    sent(ola, f"/repairs-to-confirm/{repair}", password=PASSWORD)
    cast.add("olga.officer", "safety-officer")
    olga = cast.sign_in("olga.officer")
    page = opened(olga, f"/records/{kept()[0].id}")
    assert "Confirmed by the worker: Pump operator" in page.words
    assert "I did this repair, and it happened as written here." in page.words
    assert f'href="/records/{kept()[0].id}"' in opened(olga, f"/records/{repair}").html
