"""Events go to plain data and back unchanged; the kinds' names are the agreed ones for ever."""

import json
from dataclasses import replace

import pytest
from records_cast import base, countered, countersigned, merged, observation, on, practical, use

from app.records.events import (
    KINDS,
    ContentRevised,
    CorrectionProposed,
    NameErased,
    Quiz,
    WorkerCountersign,
)
from app.records.ledger.canonical import canonical
from app.records.ledger.encoding import UnknownKind, UnknownVersion, data_of, event_of
from app.records.ledger.resending import without_arrival
from app.records.observation import Measured, PortEntry, Signature
from app.records.reading import Malformed

EVENTS = [
    *base(),
    use("u1", "2024-03-01"),
    practical("p9", "2024-02-10", "R9", "A1", observation=observation()),
    countered("x1", "2024-03-20", "p2"),
    countersigned("s1", "2024-03-20", "p2", "A1"),
    merged("i1", "2024-03-20", "W", "W2"),
    ContentRevised(id="c1", module="m", revision=2, change="major", **on("2024-03-01")),
    CorrectionProposed(id="y1", person="W", about="p2", reason="x", **on("2024-03-20")),
    NameErased(id="n1", person="W", reason="x", **on("2024-03-20")),
    WorkerCountersign(id="k1", person="W", target="p2", **on("2024-03-20")),
]


def test_the_kinds_are_those_of_the_assessment():
    # Assessment section 5; stored in every record, so none is ever renamed.
    assert set(KINDS) == {
        "training", "quiz", "practical", "use", "grant", "suspend", "lift", "revoke",
        "trainer-authorised", "trainer-withdrawn", "content-revised", "countersign",
        "counter-entry", "identity-merged",
        # Ours, beyond the assessment: two people for a correction, and a name taken out.
        "correction-proposed", "name-erased",
        # Ours too: the watched person's own word.
        "worker-countersign",
    }  # fmt: skip


@pytest.mark.parametrize("event", EVENTS, ids=lambda e: e.id)
def test_an_event_comes_back_from_its_bytes(event):
    assert event_of(json.loads(canonical(data_of(event)))) == event


def test_an_unknown_kind_is_refused():
    with pytest.raises(UnknownKind, match=r"events\[3\]\.kind: .*'promotion'"):
        event_of({**data_of(base()[0]), "kind": "promotion"}, "events[3]")


def test_a_newer_form_is_refused():
    with pytest.raises(UnknownVersion, match="up to version 1, not 2"):
        event_of({**data_of(base()[0]), "version": 2})


def test_an_older_form_is_lifted_on_reading():
    old = {**data_of(base()[3]), "version": 0, "score": 9}
    del old["right"]

    def score_became_right(data):
        return {"right": data.pop("score"), **data}

    lifted = event_of(old, upcasts={("quiz", 0): score_became_right})
    assert isinstance(lifted, Quiz)
    assert lifted == base()[3]


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"colour": "red"}, "colour"),
        ({"person": None}, "record.person"),
        ({"person": ""}, "needs person"),
        ({"passed": 1}, "true or false"),
        ({"right": True}, "whole number"),
        ({"right": 9.0}, "9.0"),
        ({"occurred_on": "2024-02-30"}, "2024-02-30"),
        ({"occurred_on": "20240229"}, "20240229"),
        ({"recorded_at": "2024-01-12T18:00:00"}, "zone"),
        ({"zone": "Nowhere"}, "Nowhere"),
    ],
)
def test_what_does_not_fit_is_refused_with_its_value(change, says):
    with pytest.raises(Malformed, match=says):
        event_of({**data_of(base()[3]), **change})


def test_a_missing_field_is_named():
    data = data_of(base()[3])
    del data["module"]
    with pytest.raises(Malformed, match="module is missing"):
        event_of(data)


@pytest.mark.parametrize("text", ["1,5", "1e3", "NaN", ".5", "1.", "", "+1", "01", "½"])
def test_signed_numbers_are_plain_decimals(text: str):
    with pytest.raises(ValueError, match="decimal"):
        Measured(name="a", value=text, unit="ml")


def test_a_port_log_has_real_ports_and_times():
    with pytest.raises(ValueError, match="0"):
        PortEntry(port=0)
    with pytest.raises(ValueError, match="25:00"):
        PortEntry(port=1, shown_at="25:00")


def test_a_signature_has_name_meaning_and_time():
    # 21 CFR 11.50 (a): printed name, date and time, meaning.
    signed_at = on("2024-02-10")["recorded_at"]
    with pytest.raises(ValueError, match="printed name"):
        Signature(printed_name="", meaning="I watched.", signed_at=signed_at)
    with pytest.raises(ValueError, match="UTC"):
        Signature(printed_name="A", meaning="m", signed_at=signed_at.replace(tzinfo=None))


def test_a_form_sent_twice_differs_only_in_its_times_of_arrival():
    first = practical("p9", "2024-02-10", "R9", "A1", observation=observation())
    later = on("2024-02-11")["recorded_at"]
    seen = first.observation
    again = replace(
        first,
        recorded_at=later,
        observation=replace(seen, signature=replace(seen.signature, signed_at=later)),
    )
    assert first != again
    assert without_arrival(first) == without_arrival(again)
    other = replace(again, observation=observation(comment="Something else."))
    assert without_arrival(first) != without_arrival(other)


def test_the_language_it_was_signed_in_makes_no_other_record_of_a_form_sent_twice():
    first = practical("p9", "2024-02-10", "R9", "A1", observation=observation())
    seen = first.observation
    spanish = replace(seen, signature=replace(seen.signature, language="es"))
    assert without_arrival(first) == without_arrival(replace(first, observation=spanish))


def test_records_from_before_the_language_was_kept_still_read():
    quiz = data_of(base()[3])
    del quiz["language"]
    assert event_of(quiz) == base()[3]
    watched = practical("p9", "2024-02-10", "R9", "A1", observation=observation())
    old = data_of(watched)
    del old["observation"]["signature"]["language"]
    assert event_of(old) == watched
    assert watched.observation.signature.language == ""
    with pytest.raises(Malformed, match="'xx'"):
        event_of({**quiz, "language": "xx"})
