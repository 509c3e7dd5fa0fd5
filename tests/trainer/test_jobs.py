"""A trainer opens a job and reads what its sizes come to."""

import pytest

from tests.trainer.conftest import JOB, text


def test_a_job_shows_its_facts_in_both_unit_systems(yard):
    job = yard.new_job()
    page = text(yard.client.get(f"/jobs/{job}"))
    assert "Length of the crack 12 ft" in page
    assert "Width of the crack 20 mil" in page
    assert "full thickness, 6 in" in page
    assert "Chosen by E. Invented, engineer" in page
    yard.post("/show", units="metric", back="/")
    page = text(yard.client.get(f"/jobs/{job}"))
    assert "Length of the crack 3658 mm" in page  # 12 ft = 3657.6 mm
    assert "Width of the crack 0.508 mm" in page


def test_the_spacing_rules_stand_side_by_side_with_who_says_them(yard):
    # trade-facts section 2, for a 150 mm (6 in) wall with a full-depth crack; 6 in = 152.4 mm.
    job = yard.new_job(thickness="150 mm", spacing="75 mm")
    yard.post("/show", units="metric", back="/")
    page = text(yard.client.get(f"/jobs/{job}"))
    for rule, gives, place in (
        ("Half the thickness · chosen", "75 mm", "keeps to it"),
        ("No more than the crack's depth", "150 mm or less", "keeps to it"),
        ("About the thickness", "150 mm", "is tighter"),
        ("A fixed spacing", "150 mm", "is tighter"),
        ("Low-pressure injectors", "200 mm to 300 mm", "is tighter"),
        ("More than the thickness", "400 mm to 500 mm", "is tighter"),
    ):
        assert f"{rule} {gives} spacing {place}" in page
    assert "TxDOT Concrete Repair Manual" in page
    assert "common practice" in page
    assert "from memory: check it" in page


def test_ports_and_resin_with_its_build_up(yard):
    # trade-facts section 7 number 11, in mL: 12 ft × 6 in × 0.020 in = 283 mL = 9.58 fl oz;
    # 15 % waste 1.44, together with 2 and 3 fl oz 16.0 fl oz. Number 12: 6 in wall, 3 in; 49 ports.
    job = yard.new_job()
    page = text(yard.client.get(f"/jobs/{job}"))
    assert "Ports on this face, one at each end 49" in page
    assert "The crack itself 9.58 fl oz" in page
    assert "Waste not given yet" in page
    assert "Total so far 9.58 fl oz" in page
    page = text(yard.client.get(f"/jobs/{job}?waste=15&hold_up=2+floz&samples=3+fl+oz"))
    assert "Waste 1.44 fl oz" in page
    assert "Total 16 fl oz" in page
    assert "Of it A, by volume 10.7 fl oz" in page  # 2:1
    assert "Of it B, by volume 5.34 fl oz" in page


def test_pot_life_is_a_band_at_the_resins_temperature(yard):
    # UFGS 09971: 30 min at 21 °C, factors 1.5 to 2.5 per 10 °C: 12 to 20 min at 31 °C.
    job = yard.new_job()
    assert "Type the temperature of the resin" in yard.page(f"/jobs/{job}")
    page = text(yard.client.get(f"/jobs/{job}?temperature=31+C"))
    assert "Shortest to expect 12 min" in page
    assert "Longest to expect 20 min" in page


def test_a_missing_data_sheet_value_leaves_the_line_open_and_names_it(yard):
    resin = yard.new_resin(name="Gull One (invented)", parts_b="", pot_life_reference_c="")
    job = yard.new_job(resin=resin)
    page = text(yard.client.get(f"/jobs/{job}?temperature=70+F"))
    assert "Of it A, by volume open: the data sheet gives no parts of B by volume" in page
    assert "the data sheet gives no temperature the pot life is given at" in page


def test_amounts_that_cannot_be_read_are_kept_beside_the_field(yard):
    answer = yard.client.get(f"/jobs/{yard.new_job()}?temperature=31&waste=15")
    assert answer.status_code == 422
    assert "31 what? Add the unit" in text(answer)
    assert 'value="31"' in answer.get_data(as_text=True)


def test_the_rules_are_shown_before_anything_is_chosen(yard):
    yard.new_resin()
    answer = yard.post("/jobs/new", thickness="6 in", is_full="y", act="rules")
    assert answer.status_code == 200
    page = text(answer)
    assert "Half the thickness: 3 in" in page
    assert "No more than the crack's depth: 6 in or less" in page
    assert "We read 6 in" in page
    assert "Write where the job is" not in page
    assert "No jobs yet" in yard.page("/jobs")


@pytest.mark.parametrize(
    ("field", "typed", "sentence"),
    [
        ("length", "12", "12 what? Add the unit"),
        ("length", "12,5 ft", "What does the comma in"),
        ("length", "5.5' 6\"", "Feet must be whole"),
        ("length", "2000 km", "What unit is"),
        ("length", "2000000 m", "It must lie from"),
        ("width", "0 mm", "It must lie from"),
        ("width", "5 in", "It must lie from"),
        ("thickness", "1/0 in", "cannot have 0 below its line"),
        ("spacing", "-3 in", "is below zero"),
        ("spacing", "", "Type the spacing somebody chose."),
        ("site", "", "Write where the job is."),
        ("spacing_chosen_by", " ", "Write the engineer's name, or the data sheet."),
    ],
)
def test_what_is_wrong_stands_beside_its_field_and_everything_typed_is_kept(
    yard, field, typed, sentence
):
    yard.ids["resin"] = yard.new_resin()
    data = JOB | {"resin": yard.ids["resin"], "note": "By the stairs."} | {field: typed}
    answer = yard.post("/jobs/new", **data)
    html = answer.get_data(as_text=True)
    assert answer.status_code == 422
    assert f'id="{field}-error-1"' in html
    assert sentence in text(answer)
    assert "By the stairs." in html
    if typed.strip() and field != "site":
        assert typed.replace('"', "&#34;").replace("'", "&#39;") in html
    assert "No jobs yet" in yard.page("/jobs")


def test_the_depth_is_measured_or_full_never_assumed_never_more(yard):
    yard.ids["resin"] = yard.new_resin()
    data = {k: v for k, v in JOB.items() if k != "is_full"} | {"resin": yard.ids["resin"]}
    for depth, sentence in (
        ("", "How deep is it? Measure, or tick the full thickness."),
        ("8 in", "We read 8 in = 203.2 mm. That is more than the member is thick."),
    ):
        answer = yard.post("/jobs/new", **data, depth=depth)
        assert answer.status_code == 422
        assert sentence in text(answer)
    answer = yard.post("/jobs/new", **data, depth="4 in", is_full="y")
    assert "Clear this, or take the tick" in text(answer)
    answer = yard.post("/jobs/new", **data, depth="4 in")
    assert answer.status_code == 303
    assert "Depth of the crack 4 in" in text(yard.client.get(answer.location))


def test_a_crack_that_would_hold_a_lake_is_refused(yard):
    yard.ids["resin"] = yard.new_resin()
    data = JOB | {
        "resin": yard.ids["resin"],
        "length": "900 m",
        "thickness": "9 m",
        "width": "24 mm",
    }
    answer = yard.post("/jobs/new", **(data | {"spacing": "1 m"}))
    assert answer.status_code == 422
    assert "A crack of these sizes would hold" in text(answer)


def test_choices_nobody_offered_are_refused(yard):
    yard.ids["resin"] = yard.new_resin()
    for field in ("orientation", "access", "port_kind", "spacing_rule", "resin"):
        answer = yard.post(
            "/jobs/new", **(JOB | {"resin": yard.ids["resin"]} | {field: "sideways"})
        )
        assert answer.status_code == 422, field
        assert f"{field}-error-1" in answer.get_data(as_text=True), field
