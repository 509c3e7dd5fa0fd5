"""One record can be read whole, with its signature and its place; made void, never changed."""

import hashlib
from dataclasses import replace

from sqlalchemy import text

from app.database import reading, writing
from app.demo.loading import load_demo
from app.ids import new_id
from app.records.events import Practical, Quiz
from app.records.observation import (
    Measured,
    Observation,
    PortEntry,
    Signature,
    StepOutcome,
)

PASSWORD = "wet-phone-in-basement"


def said(answer) -> str:
    return answer.get_data(as_text=True)


def void(client, target: str, **more: str):
    data = {
        "record_id": new_id(),
        "occurred_on": "2026-03-02",
        "reason": "Wrong person picked (invented).",
        "password": PASSWORD,
        **more,
    }
    return client.post(f"/records/{target}/counter", data=data)


def observation(clock) -> Observation:
    items = (
        StepOutcome(
            module="ratio-sample", step="ratio-in-tolerance", outcome="done", rule_met=True
        ),
        StepOutcome(
            module="ratio-sample",
            step="no-such-step-any-more",
            outcome="does-not-apply",
            critical=False,
            reason="Checked on the first batch.",
        ),
    )
    return Observation(
        items=items,
        judgement="works-safely-alone",
        signature=Signature(
            printed_name="T. Saga, as printed then",
            meaning="I watched this repair from start to end.",
            signed_at=clock(),
        ),
        measured=(
            Measured(
                name="sample_b", value="118.5", unit="ml", module="ratio-sample",
                step="ratio-in-tolerance", low="114", high="126", is_within=True,
            ),
            Measured(name="mixed_at", value="12", unit="min", module="batch"),
        ),
        given=(Measured(name="resin_parts_a", value="2", unit=""),),
        ports=(PortEntry(port=3, next_port=4, shown_at="14:05", pressure_mpa="0.4", note="slow"),),
        comment="Calm hands.",
    )  # fmt: skip


def test_a_supervised_repair_is_readable_to_the_last_value(firm, olga, clock):
    tomas = firm.people["tomas"]
    record_id = firm.record(
        Practical,
        "2026-02-27",
        person=firm.people["ben"],
        qualification="pump-operator",
        trainer=tomas,
        recorded_by=tomas,
        job="North wall (invented)",
        observation=observation(clock),
    )
    page = said(olga.get(f"/records/{record_id}"))
    item = firm.curriculum.module("ratio-sample").item("ratio-in-tolerance")
    for words in (
        item.text.in_language("en"),
        "in tolerance",
        "no such step any more",
        "Does not apply",
        "Checked on the first batch.",
        "4.01 fl oz",  # 118.5 mL / 29.5735 mL per US fl oz
        "3.85 fl oz – 4.26 fl oz",
        "within limits",
        "A met B at",
        "Parts of A by volume",
        "14:05",
        "58 psi",  # 0.4 MPa / 6.894757 kPa per psi (NIST SP 811)
        "slow",
        "Works safely alone",
        "Calm hands.",
        "T. Saga, as printed then",
        "I watched this repair from start to end.",
        "2 Mar 2026, 09:00 EST",
        "Ben Invented",
        "North wall (invented)",
    ):
        assert words in page, words


def test_the_language_of_a_quiz_and_of_a_signature_is_shown(firm, olga):
    firm.record(
        Quiz, "2026-02-02", id="q-es", person=firm.people["ben"], module="shutdown", passed=True,
        right=8, asked=8, language="es",
    )  # fmt: skip
    assert "Language</dt><dd>Spanish" in said(olga.get("/records/q-es"))
    firm.ready()
    olga.post("/show", data={"language": "es"})
    assert firm.decide("grant", olga).status_code == 303
    olga.post("/show", data={"language": "en"})
    (grant,) = firm.of_kind("grant")
    assert grant.signature.language == "es"
    page = said(olga.get(f"/records/{grant.id}"))
    assert "Signed on a page in this language: Spanish" in page


def test_its_place_in_the_chain_can_be_worked_out_by_anybody(firm, olga):
    firm.ready()
    with firm.app.app_context(), reading() as connection:
        rows = connection.execute(text("SELECT seq, id, body FROM record ORDER BY seq")).all()
    previous = bytes(32)
    for row in rows:
        # RFC 6962, 2.1: a leaf is hashed behind a zero byte. Here the leaf is the fingerprint
        # before and the record's own bytes.
        previous = hashlib.sha256(b"\x00" + previous + row.body).digest()
        page = said(olga.get(f"/records/{row.id}"))
        assert f"{row.seq} of {len(rows)}" in page
        assert previous.hex() in page.replace("<wbr>", "")


def test_every_kind_of_record_of_the_demo_opens(app, clock, curriculum):
    with app.app_context(), writing() as connection:
        load_demo(connection, curriculum, clock(), "America/New_York")
    client = app.test_client()
    client.post("/sign-in", data={"sign_in_name": "olga", "password": "wall-before-noon"})
    with app.app_context(), reading() as connection:
        rows = connection.execute(
            text("SELECT min(id) AS id, kind FROM record GROUP BY kind")
        ).all()
    assert len(rows) >= 9
    for row in rows:
        answer = client.get(f"/records/{row.id}")
        assert answer.status_code == 200, row.kind
        assert "Its place among the records" in said(answer)


def test_a_void_record_stays_readable_and_stops_counting(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    (grant,) = firm.of_kind("grant")
    repair = grant.evidence[-1]
    page = said(olga.get(f"/records/{repair}"))
    assert "Pump operator:" in page.split('id="counter"')[1]  # the standing that would change
    answer = void(olga, repair)
    assert answer.status_code == 303
    entry = said(olga.get(answer.location))
    assert "I make the record named here void for the reason given." in entry
    assert "Wrong person picked (invented)." in entry
    page = said(olga.get(f"/records/{repair}"))
    assert "This record is void." in page
    assert "Wrong person picked (invented)." in page
    assert "Sign: make it void" not in page
    words = said(olga.get("/board?qualification=pump-operator&standing=current"))
    assert "Ben Invented</a>" not in words.split("What runs out next")[0]


def test_voiding_the_void_brings_it_back(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    (grant,) = firm.of_kind("grant")
    entry = void(olga, grant.evidence[-1]).location.removeprefix("/records/")
    asked = {"reason": "It was the right person.", "propose": "yes"}
    proposal = void(olga, entry, **asked).location.removeprefix("/records/")
    confirmed = firm.sign_in("pia").post(
        f"/corrections/{proposal}",
        data={"record_id": new_id(), "occurred_on": "2026-03-02", "password": PASSWORD},
    )
    assert confirmed.status_code == 303
    assert "This record is void." not in said(olga.get(f"/records/{grant.evidence[-1]}"))
    page = said(olga.get("/board?qualification=pump-operator&standing=current"))
    assert "Ben Invented</a>" in page


def test_sent_twice_it_is_one_counter_entry(firm, olga):
    firm.teach("ben", "2026-02-02")
    target = firm.of_kind("quiz")[0].id
    record_id = new_id()
    first = void(olga, target, record_id=record_id)
    second = void(olga, target, record_id=record_id)
    assert first.location == second.location
    assert len(firm.of_kind("counter-entry")) == 1


def test_every_refusal_of_a_counter_entry_has_its_sentence(firm, olga, cast):
    firm.people["odd"] = cast.add("odd", "safety-officer", "worker")
    firm.teach("odd", "2026-02-02")
    own = firm.of_kind("quiz")[0].id
    assert "You cannot decide about yourself." in said(firm.sign_in("odd").get(f"/records/{own}"))
    answer = void(firm.sign_in("odd"), own)
    assert answer.status_code == 422
    assert "You cannot decide about yourself." in said(answer)
    for more, sentence in [
        ({"reason": ""}, "Write the reason."),
        ({"occurred_on": "2026-03-03"}, "3 Mar 2026 is in the future."),
        ({"password": "wrong-one"}, "That is not your password."),
    ]:
        answer = void(olga, own, **more)
        assert answer.status_code == 422
        assert sentence in said(answer)
    assert void(olga, own).status_code == 303
    assert "This record is already void." in said(void(olga, own))


def test_a_trainers_authorisation_can_be_made_void_for_everybody(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    target = next(
        e.id
        for e in firm.of_kind("trainer-authorised")
        if e.person == firm.people["uma"] and e.qualification == "pump-operator"
    )
    assert "It can bear on many people" in said(olga.get(f"/records/{target}"))
    assert void(olga, target).status_code == 303
    page = said(olga.get(f"/people/{firm.people['ben']}"))
    assert "Uma Invented was not authorised to sign for this on 20 Feb 2026." in page


def test_a_renamed_person_signed_what_was_printed_then(firm, olga, clock):
    seen = replace(observation(clock), comment="")
    record_id = firm.record(
        Practical,
        "2026-02-27",
        person=firm.people["ben"],
        qualification="pump-operator",
        trainer=firm.people["tomas"],
        recorded_by=firm.people["tomas"],
        job="North wall (invented)",
        observation=seen,
    )
    olga.post(
        f"/people/{firm.people['tomas']}/account/name", data={"name-printed_name": "Thomas Other"}
    )
    assert "T. Saga, as printed then" in said(olga.get(f"/records/{record_id}"))
