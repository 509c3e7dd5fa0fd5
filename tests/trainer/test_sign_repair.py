"""A trainer watches a supervised repair and signs it."""

from app.records.events import Practical
from tests.trainer.conftest import PASSWORD, text


def test_the_whole_path_from_the_job_to_the_record(yard):
    repair = yard.started()
    yard.watch_all(repair)
    review = yard.page(f"/repairs/{repair}/review")
    assert "Pass" in review
    assert "I watched this repair from start to end" in review

    answer = yard.sign(repair)

    assert (answer.status_code, answer.location) == (303, f"/repairs/{repair}")
    record = yard.page(f"/repairs/{repair}")
    assert "Ana.Trainer Invented" in record
    assert "2 Mar 2026, 09:00 (America/New_York)" in record
    assert "I watched this repair from start to end, and it happened as written here." in record
    assert "Keep the log." in record
    event = next(e for e in yard.events() if e.id == repair)
    assert isinstance(event, Practical)
    assert event.passed
    assert event.trainer == event.recorded_by == yard.people["ana.trainer"]
    assert event.person == yard.people["pat.worker"]
    assert [r.module for r in event.revisions] == [
        "safety-gear", "pump-purge", "ratio-sample", "shutdown"
    ]  # fmt: skip
    assert "pat.worker" not in yard.page("/repairs").split("Signed")[0]


def test_a_body_holds_what_was_measured_as_decimal_text_with_its_limits(yard):
    repair = yard.started()
    yard.watch_all(repair)
    yard.sign(repair)
    event = next(e for e in yard.events() if e.id == repair)
    by_name = {one.name: one for one in event.observation.measured}
    # trade-facts section 7 number 5: 100 mL of A at 2:1, 5 %: B from 47.5 to 52.5 mL.
    assert (by_name["sample_b"].value, by_name["sample_b"].unit) == ("50", "ml")
    assert (by_name["sample_b"].low, by_name["sample_b"].high) == ("47.5", "52.5")
    assert by_name["sample_b"].is_within is True
    assert by_name["wheel"].value == "127"  # 5 in, exactly 25.4 mm an inch
    given = {one.name: one.value for one in event.observation.given}
    assert given["job_length_mm"] == "3657.6"  # 12 ft
    assert given["resin_ratio_tolerance"] == "0.05"


def test_signing_twice_is_one_record_and_shows_the_first_receipt(yard):
    repair = yard.started()
    yard.watch_all(repair)
    yard.sign(repair)
    before = yard.events()
    answer = yard.sign(repair)
    assert (answer.status_code, answer.location) == (303, f"/repairs/{repair}")
    assert yard.events() == before
    shown = yard.page(f"/repairs/{repair}")
    assert "You signed this already" in shown
    assert f"Receipt {len(before)}" in shown


def test_a_wrong_password_keeps_everything_and_signs_nothing(yard):
    repair = yard.started()
    yard.watch_all(repair)
    before = yard.events()
    answer = yard.sign(repair, password="not-my-password")
    assert answer.status_code == 422
    assert "That is not your password. Nothing was signed." in text(answer)
    assert "Keep the log." in text(answer)
    assert yard.events() == before
    assert yard.sign(repair).status_code == 303


def test_an_empty_password_is_asked_for(yard):
    repair = yard.started()
    yard.watch_all(repair)
    answer = yard.sign(repair, password="")
    assert answer.status_code == 422
    assert "Type your password again." in text(answer)


def test_what_is_still_open_is_listed_and_nothing_can_be_signed(yard):
    repair = yard.started()
    yard.note(repair, "ratio-sample", "clean-cups")
    review = yard.page(f"/repairs/{repair}/review")
    assert "Not ready to sign" in review
    assert "The overall judgement" in review
    assert "password" not in review
    answer = yard.sign(repair)
    assert answer.status_code == 422
    assert not [e for e in yard.events() if isinstance(e, Practical)]


def test_a_critical_step_done_when_prompted_is_signed_as_not_yet(yard):
    repair = yard.started()
    yard.watch_all(repair)
    yard.note(repair, "shutdown", "relieve-first", "done-when-prompted")
    review = yard.page(f"/repairs/{repair}/review")
    assert "Not yet" in review
    assert "Critical step, Done when prompted: Pump off and locked out" in review
    assert yard.sign(repair).status_code == 303
    event = next(e for e in yard.events() if e.id == repair)
    assert not event.passed
    assert "Not yet" in yard.page(f"/repairs/{repair}")


def test_a_critical_step_out_of_tolerance_is_not_a_pass(yard):
    repair = yard.started()
    yard.watch_all(repair)
    yard.note(repair, "ratio-sample", "ratio-in-tolerance", sample_a="100", sample_b="47.4")
    assert "Critical step out of limits" in yard.page(f"/repairs/{repair}/review")
    yard.sign(repair)
    event = next(e for e in yard.events() if e.id == repair)
    assert not event.passed


def test_a_second_pass_on_the_same_job_is_refused_beside_the_password(yard):
    repair = yard.started()
    yard.watch_all(repair)
    yard.sign(repair)
    job = next(e for e in yard.events() if e.id == repair).job
    again = yard.start(job).location.rsplit("/", 1)[1]
    yard.watch_all(again)
    answer = yard.sign(again)
    assert answer.status_code == 422
    assert "This is in the records already" in text(answer)


def test_an_authorisation_withdrawn_meanwhile_is_told_at_the_signature(yard, clock):
    from app.database import writing
    from app.ids import new_id
    from app.records.events import TrainerWithdrawn
    from app.records.ledger.door import append

    repair = yard.started()
    yard.watch_all(repair)
    with yard.app.app_context(), writing() as connection:
        append(
            connection,
            TrainerWithdrawn(
                id=new_id(), occurred_on=clock().date(), zone="America/New_York",
                recorded_at=clock(), recorded_by="officer",
                person=yard.people["ana.trainer"], qualification="pump-operator", reason="test",
            ),
        )  # fmt: skip
    answer = yard.sign(repair)
    assert answer.status_code == 422
    assert "not authorised for pump operator on 2 Mar 2026" in text(answer)


def test_a_signed_repair_can_no_longer_be_changed_or_given_up(yard):
    repair = yard.started()
    yard.watch_all(repair)
    yard.sign(repair)
    yard.page(f"/repairs/{repair}")  # takes the flash away
    # As text: the form's token changes with the second.
    before = text(yard.client.get(f"/repairs/{repair}"))
    assert yard.note(repair, "ratio-sample", "clean-cups", "not-done").status_code == 404
    assert yard.post(f"/repairs/{repair}/judgement", overall="needs-guiding").status_code == 404
    assert yard.post(f"/repairs/{repair}/drop").status_code == 404
    assert yard.post(f"/repairs/{repair}/ports", port="1", opened_at="09:00").status_code == 404
    assert text(yard.client.get(f"/repairs/{repair}")) == before


def test_the_language_it_was_signed_in_is_kept_and_shown(yard):
    repair = yard.started()
    yard.watch_all(repair)
    yard.post("/show", language="es")
    yard.sign(repair)
    yard.post("/show", language="en")
    event = next(e for e in yard.events() if e.id == repair)
    assert event.observation.signature.language == "es"
    page = text(yard.client.get(f"/repairs/{repair}"))
    assert "Signed on a page in this language: Spanish" in page


def test_a_signed_repair_says_where_its_person_stands_now(yard):
    repair = yard.started()
    yard.watch_all(repair)
    yard.sign(repair)
    page = text(yard.client.get(f"/repairs/{repair}"))
    # A first repair of the two the rules ask for, by one trainer of two, and nothing granted.
    for words in (
        "Pat.Worker Invented today, Pump operator: Not qualified",
        "1 of 2 supervised repairs count.",
        "Trainers who signed those repairs: 1 of 2.",
        "A safety officer has to grant it.",
    ):
        assert words in page


def test_whether_the_watched_person_confirmed_it_is_shown(yard, cast):
    repair = yard.started()
    yard.watch_all(repair)
    yard.sign(repair)
    before = text(yard.client.get(f"/repairs/{repair}"))
    assert "Not confirmed by the person who was watched." in before
    pat = cast.sign_in("pat.worker")
    answer = pat.post(f"/repairs-to-confirm/{repair}", data={"password": PASSWORD})
    assert answer.status_code == 303
    after = text(yard.client.get(f"/repairs/{repair}"))
    assert "Pat.Worker Invented confirmed on 2 Mar 2026: I did this repair." in after
    assert "Not confirmed" not in after
