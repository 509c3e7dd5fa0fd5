"""A trainer notes how each step went and sees at once what is in or out of tolerance."""

import re

import pytest

from tests.trainer.conftest import text

SAMPLE = "ratio-sample/ratio-in-tolerance"


def test_a_ratio_sample_out_of_tolerance_is_told_at_once(yard):
    # trade-facts section 7 number 5: at 2:1, 5 % on B, A = 100 mL: B 47.5 to 52.5 passes, 47.4 not.
    repair = yard.started()
    answer = yard.note(repair, *SAMPLE.split("/"), sample_a="100", sample_b="47.4")
    assert answer.location == f"/repairs/{repair}/{SAMPLE}#verdict"
    card = text(yard.client.get(answer.location))
    assert "Side B caught: 47.4 mL is OUT of limits" in card
    assert "Allowed: 47.5 to 52.5 mL" in card
    # A is over by 100 - 2 × 47.4 = 5.2 mL.
    assert "Side A is long by 5.2 mL. Stop" in card
    assert "OUT of limits" in yard.page(f"/repairs/{repair}/ratio-sample")


FAILS = "Noted with this number, this critical step fails the repair."


def test_out_of_tolerance_the_card_says_what_noting_it_means_and_does_not_lead_there(yard):
    repair = yard.started()
    yard.note(repair, *SAMPLE.split("/"), outcome="", sample_a="100", sample_b="47.4")
    card = yard.page(f"/repairs/{repair}/{SAMPLE}")
    assert FAILS in card
    assert '<button class="button primary" name="outcome" value="">Save the numbers' in card
    assert 'class="button step-on"' not in card
    yard.note(repair, *SAMPLE.split("/"), outcome="", sample_a="100", sample_b="47.5")
    card = yard.page(f"/repairs/{repair}/{SAMPLE}")
    assert FAILS not in card
    assert '<button class="button step-on" name="outcome" value="done">Done' in card


def test_the_repair_leads_to_its_next_open_step_then_to_the_judgement_then_to_signing(yard):
    repair = yard.started()
    leads = r'<a class="button step-on" href="([^"]+)"'
    first = f"/repairs/{repair}/safety-gear/gear-before-can"
    assert re.findall(leads, yard.page(f"/repairs/{repair}")) == [first]
    yard.note(repair, "safety-gear", "gear-before-can")
    assert re.findall(leads, yard.page(f"/repairs/{repair}")) != [first]
    yard.note_all(repair)
    assert re.findall(leads, yard.page(f"/repairs/{repair}")) == [f"/repairs/{repair}/judgement"]
    yard.post(f"/repairs/{repair}/judgement", overall="works-safely-alone")
    assert re.findall(leads, yard.page(f"/repairs/{repair}")) == [f"/repairs/{repair}/review"]


def test_a_ratio_sample_on_the_limit_is_within(yard):
    repair = yard.started()
    yard.note(repair, *SAMPLE.split("/"), sample_a="100 ml", sample_b="47.5")
    assert "47.5 mL is within limits" in text(yard.client.get(f"/repairs/{repair}/{SAMPLE}"))


def test_a_pressure_typed_like_its_limit_is_within(yard):
    # 45 psi on the data sheet, 45 psi on the gauge: the same number, whatever the last bit says.
    yard.authorise("ana.trainer", "lead-injector")
    repair = yard.started(qualification="lead-injector")
    where = f"/repairs/{repair}/injection-order/pressure-under-limit"
    yard.post(where, outcome="done", highest_pressure="45 psi")
    assert "45 psi is within limits" in text(yard.client.get(where))
    yard.post(where, outcome="done", highest_pressure="45.1 psi")
    assert "45.1 psi is OUT of limits" in text(yard.client.get(where))


def test_numbers_are_saved_and_judged_before_anything_is_said_about_the_step(yard):
    repair = yard.started()
    yard.note(repair, *SAMPLE.split("/"), outcome="", sample_a="100", sample_b="50")
    card = text(yard.client.get(f"/repairs/{repair}/{SAMPLE}"))
    assert "50 mL is within limits" in card
    assert "You noted" not in card
    assert "0 of 9 steps noted" in text(yard.client.get(f"/repairs/{repair}/ratio-sample"))


def test_what_was_read_is_said_back(yard):
    repair = yard.started()
    yard.note(repair, "safety-gear", "eyewash-distance", eyewash_path="6'-4\"")
    card = yard.page(f"/repairs/{repair}/safety-gear/eyewash-distance")
    assert "We read 6 ft 4 in = 76 in" in card


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("1,5", "What does the comma in"),
        ("six", "does not start with a number"),
        ("50 mm", "mm is for length"),
        ("-5", "is below zero"),
        ("1e3", "in full, without the e"),
    ],
)
def test_what_cannot_be_read_is_kept_beside_the_field(yard, typed: str, sentence: str):
    repair = yard.started()
    answer = yard.note(repair, *SAMPLE.split("/"), sample_a="100", sample_b=typed)
    assert answer.status_code == 422
    assert sentence in text(answer)
    assert f'value="{typed}"' in answer.get_data(as_text=True)
    assert 'value="100"' in answer.get_data(as_text=True)
    assert "0 of 9 steps noted" in text(yard.client.get(f"/repairs/{repair}/ratio-sample"))


def test_a_number_no_cup_can_hold_is_refused_beside_the_field(yard):
    repair = yard.started()
    answer = yard.note(repair, *SAMPLE.split("/"), sample_a="0", sample_b="50")
    assert answer.status_code == 422
    assert 'id="sample_a-error-1"' in answer.get_data(as_text=True)
    assert "We read 0 mL. It must lie from" in text(answer)


def test_done_needs_what_was_measured(yard):
    repair = yard.started()
    answer = yard.note(repair, *SAMPLE.split("/"), sample_a="100")
    assert answer.status_code == 422
    assert 'id="sample_b-error-1"' in answer.get_data(as_text=True)
    assert yard.note(repair, *SAMPLE.split("/"), outcome="not-seen").status_code == 303


def test_a_critical_step_that_does_not_apply_needs_a_reason(yard):
    repair = yard.started()
    answer = yard.note(repair, "shutdown", "fresh-air-first", "does-not-apply")
    assert answer.status_code == 422
    assert "Write why this critical step does not apply." in text(answer)
    answer = yard.note(
        repair, "shutdown", "fresh-air-first", "does-not-apply", reason="No solvent was used."
    )
    assert answer.status_code == 303
    assert "No solvent was used." in yard.page(f"/repairs/{repair}/shutdown/fresh-air-first")


def test_a_step_without_numbers_leads_on_to_the_next(yard):
    repair = yard.started()
    answer = yard.note(repair, "ratio-sample", "ratio-read")
    assert answer.location == f"/repairs/{repair}/ratio-sample/clean-cups"


def test_an_outcome_nobody_offered_is_refused(yard):
    repair = yard.started()
    answer = yard.note(repair, "ratio-sample", "ratio-read", "perfect")
    assert answer.status_code == 422


def test_a_missing_data_sheet_value_leaves_the_line_open_and_says_which(yard):
    resin = yard.new_resin(name="Gull One (invented)", ratio_tolerance="")
    job = yard.new_job(resin=resin)
    repair = yard.start(job).location.rsplit("/", 1)[1]
    yard.note(repair, *SAMPLE.split("/"), sample_a="100", sample_b="40")
    card = text(yard.client.get(f"/repairs/{repair}/{SAMPLE}"))
    assert "Not judged There is no value yet for: tolerance of the ratio." in card
    yard.post(f"/resins/{resin}", ratio_tolerance="5 %")
    assert "40 mL is OUT of limits" in text(yard.client.get(f"/repairs/{repair}/{SAMPLE}"))


def test_unknown_steps_modules_and_repairs_are_not_found(yard):
    repair = yard.started()
    for path in (
        "/repairs/nobody",
        "/repairs/nobody/review",
        f"/repairs/{repair}/port-setting",  # not among a pump operator's checklists
        f"/repairs/{repair}/ratio-sample/no-such-step",
        f"/repairs/{repair}/ports/7",
        "/jobs/none",
        "/jobs/none/repairs/new",
        "/jobs/none/use",
        "/resins/none",
    ):
        assert yard.client.get(path).status_code == 404, path
    for path in ("/repairs/nobody/sign", "/repairs/nobody/drop", "/repairs/nobody/counter"):
        assert yard.post(path, password="x", reason="y").status_code == 404, path
    assert yard.client.get(f"/repairs/{repair}/sign").status_code == 405


def test_another_trainer_sees_nothing_of_an_open_repair(yard, cast):
    repair = yard.started()
    yard.client = cast.sign_in("tom.trainer")
    assert yard.client.get(f"/repairs/{repair}").status_code == 404
    assert yard.note(repair, "ratio-sample", "ratio-read").status_code == 404
    assert yard.post(f"/repairs/{repair}/drop").status_code == 404
    assert yard.sign(repair).status_code == 404


def test_a_repair_given_up_is_gone_and_nothing_is_on_record(yard):
    repair = yard.started()
    yard.note(repair, "ratio-sample", "ratio-read")
    before = yard.events()
    assert yard.post(f"/repairs/{repair}/drop").location == "/repairs"
    assert yard.client.get(f"/repairs/{repair}").status_code == 404
    assert "Nothing is open" in yard.page("/repairs")
    assert yard.events() == before
