"""Granting, suspending, lifting, revoking: one signed record each, or a sentence of why not."""

import pytest

from app.ids import new_id
from app.records.events import ContentRevised


def said(answer) -> str:
    return answer.get_data(as_text=True)


def refused(answer, sentence: str) -> str:
    """The page of a refusal: nothing lost of what was typed."""
    page = said(answer)
    assert answer.status_code == 422, page
    assert sentence in page
    return page


def test_the_form_spells_out_what_follows(firm, olga):
    firm.ready()
    page = said(olga.get(f"/people/{firm.people['ben']}/pump-operator/decide/grant"))
    assert "It is good through 2 Mar 2028." in page
    assert "has to come by 20 Aug 2026" in page
    assert "Supervised repair: Pump operator" in page  # the evidence it would rest on
    assert "I grant this qualification. I read the evidence and had no part in it." in page
    for verb, words in [
        ("suspend", "The clocks keep running."),
        ("lift", "What ran out meanwhile stays run out."),
        ("revoke", "Only a new grant brings it back"),
    ]:
        page = said(olga.get(f"/people/{firm.people['ben']}/pump-operator/decide/{verb}"))
        assert words in page


def test_a_decision_is_one_signed_record_with_its_reason(firm, olga):
    firm.ready()
    answer = firm.decide("grant", olga, reason="  Read all of it (invented). ")
    (grant,) = firm.of_kind("grant")
    assert answer.location == f"/records/{grant.id}"
    assert (grant.decider, grant.recorded_by) == (firm.people["olga"], firm.people["olga"])
    assert grant.reason == "Read all of it (invented)."
    assert grant.policy_version == firm.curriculum.policy_version
    assert len(grant.evidence) == 4 + 4 + 2  # training and quiz in four modules, two repairs
    page = said(olga.get(answer.location))
    assert "Signed and recorded." in page
    assert "Olga Invented" in page  # printed name, time and meaning: 21 CFR 11.50
    assert "2 Mar 2026, 09:00 EST" in page
    assert "I grant this qualification." in page


def test_a_form_sent_twice_is_one_record(firm, olga):
    firm.ready()
    record_id = new_id()
    first = firm.decide("grant", olga, record_id=record_id)
    second = firm.decide("grant", olga, record_id=record_id)
    assert second.location == first.location
    assert "Already recorded." in said(olga.get(second.location))
    assert len(firm.of_kind("grant")) == 1


def test_sent_again_after_the_world_moved_on_it_is_still_the_first_record(firm, olga, clock):
    firm.ready()
    firm.decide("grant", olga)
    record_id = new_id()
    firm.decide("suspend", olga, record_id=record_id)
    clock.pass_time(minutes=5)
    firm.decide("lift", olga)
    clock.pass_time(minutes=5)
    firm.decide("revoke", olga)
    again = firm.decide("suspend", olga, record_id=record_id)
    assert again.status_code == 303
    assert len(firm.of_kind("suspend")) == 1


def test_the_same_form_with_other_words_is_refused_and_may_be_sent_anew(firm, olga):
    firm.ready()
    firm.decide("grant", olga)
    record_id = new_id()
    firm.decide("suspend", olga, record_id=record_id)
    answer = firm.decide("suspend", olga, record_id=record_id, reason="Another reason.")
    page = refused(answer, "This form was sent before with something else in it.")
    assert "Another reason." in page
    assert record_id not in page
    assert len(firm.of_kind("suspend")) == 1


def test_nobody_grants_themselves_anything(firm, cast):
    firm.people["odd"] = cast.add("odd", "safety-officer", "worker", printed_name="Odd Invented")
    firm.ready("odd")
    answer = firm.decide("grant", firm.sign_in("odd"), person="odd")
    refused(answer, "You cannot decide about yourself.")
    assert firm.of_kind("grant") == []


def test_whoever_signed_the_evidence_does_not_grant_on_it(firm, cast):
    both = cast.add("both", "safety-officer", "trainer", printed_name="Both Invented")
    firm.people["both"] = both
    firm.authorise("both", "pump-operator")
    firm.teach("ben", "2026-02-02")
    firm.watch("ben", "tomas", "2026-02-10")
    firm.watch("ben", "both", "2026-02-20")
    answer = firm.decide("grant", firm.sign_in("both"))
    page = refused(answer, "You trained or signed off this person")
    assert "1 of 2 supervised repairs count." in page
    assert "Another safety officer has to decide." in page
    assert firm.decide("grant", firm.sign_in("olga")).status_code == 303


def test_a_grant_without_the_evidence_says_what_is_missing_by_name(firm, olga):
    firm.teach("ben", "2026-02-02", "preparation-hand")
    page = refused(firm.decide("grant", olga), "The evidence is not complete.")
    title = firm.curriculum.module("pump-purge").lesson("en").title
    assert f"Training in “{title}” is missing." in page
    assert "0 of 2 supervised repairs count." in page
    page = said(olga.get(f"/people/{firm.people['ben']}/pump-operator/decide/grant"))
    assert "As things stand, this will be refused" in page


def test_a_prerequisite_is_asked_for_by_its_title(firm, olga):
    page = refused(
        firm.decide("grant", olga, qualification="lead-injector"), "First this must be current:"
    )
    assert "Preparation hand, Pump operator" in page


@pytest.mark.parametrize(
    ("more", "sentence", "field"),
    [
        ({"occurred_on": "2026-03-03"}, "3 Mar 2026 is in the future.", "occurred_on"),
        ({"occurred_on": ""}, "Choose the day.", "occurred_on"),
        ({"occurred_on": "2/3/2026"}, "Write the day as year-month-day", "occurred_on"),
        ({"occurred_on": "0026-03-02"}, "Check the year.", "occurred_on"),
        ({"reason": "   "}, "Write the reason.", "reason"),
        ({"reason": "x" * 1001}, "Use at most 1000 characters.", "reason"),
        ({"password": ""}, "Type your password to sign.", "password"),
        ({"password": "not-my-password"}, "That is not your password.", "password"),
        ({"record_id": "1; drop"}, "This form is broken.", None),
    ],
)
def test_what_is_wrong_stands_beside_its_field_and_nothing_is_lost(
    firm, olga, more, sentence, field
):
    firm.ready()
    firm.decide("grant", olga)
    page = refused(firm.decide("suspend", olga, **{"reason": "Kept words.", **more}), sentence)
    if field:
        assert f'id="{field}-error-1"' in page
    if "reason" not in more:
        assert "Kept words." in page
    assert firm.of_kind("suspend") == []


def test_too_many_wrong_passwords_close_the_signature_for_a_while(firm, olga):
    firm.ready()
    for _ in range(8):
        firm.decide("grant", olga, password="not-my-password")
    refused(firm.decide("grant", olga), "Too many wrong passwords.")
    assert firm.of_kind("grant") == []


@pytest.mark.parametrize(
    ("before", "verb", "sentence"),
    [
        ([], "lift", "This qualification is not suspended."),
        ([], "revoke", "There is no grant to revoke."),
        (["grant", "suspend"], "suspend", "This qualification is already suspended."),
        (["grant", "revoke"], "revoke", "There is no grant to revoke."),
        (["grant"], "grant", "This is already in the records"),
    ],
)
def test_a_decision_that_makes_no_sense_is_refused(firm, olga, before, verb, sentence):
    firm.ready()
    for earlier in before:
        assert firm.decide(earlier, olga).status_code == 303
    count = len(firm.events())
    refused(firm.decide(verb, olga), sentence)
    assert len(firm.events()) == count


def test_an_officer_does_not_lift_their_own_suspension(firm, olga, cast):
    firm.people["odd"] = cast.add("odd", "safety-officer", "worker", printed_name="Odd Invented")
    firm.ready("odd")
    firm.decide("grant", olga, person="odd")
    firm.decide("suspend", olga, person="odd")
    answer = firm.decide("lift", firm.sign_in("odd"), person="odd")
    refused(answer, "You cannot decide about yourself.")


def test_unknown_people_qualifications_and_verbs_are_not_here(firm, olga):
    ben = firm.people["ben"]
    for path in (
        f"/people/{new_id()}/pump-operator/decide/grant",
        f"/people/{ben}/astronaut/decide/grant",
        f"/people/{ben}/pump-operator/decide/bless",
        f"/people/{new_id()}",
        f"/people/{new_id()}/account",
        f"/people/{new_id()}/authorise",
        f"/records/{new_id()}",
        "/procedures/astronautics",
    ):
        assert olga.get(path).status_code == 404, path
    for path in (
        f"/records/{new_id()}/counter",
        f"/people/{ben}/account/halo",
        f"/people/{new_id()}/account/name",
    ):
        assert olga.post(path).status_code == 404, path


def test_a_reason_is_shown_as_text_not_as_a_page(firm, olga):
    firm.ready()
    answer = firm.decide("grant", olga, reason="<script>alert(1)</script>")
    page = said(olga.get(answer.location))
    assert "<script>alert(1)" not in page
    assert "&lt;script&gt;alert(1)" in page


def test_training_at_an_old_revision_is_told_with_the_revision_in_force(firm, olga):
    ratio = firm.curriculum.module("ratio-sample")
    firm.ready()
    firm.record(
        ContentRevised,
        "2026-02-25",
        module="ratio-sample",
        revision=ratio.revision + 1,
        change="major",
    )
    page = refused(firm.decide("grant", olga), "The evidence is not complete.")
    title = ratio.lesson("en").title
    words = f"Training in “{title}” is at revision {ratio.revision}; {ratio.revision + 1} is in"
    assert words in page
