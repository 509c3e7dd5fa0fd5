"""A trainer copies a product data sheet; what it does not say stays open."""

import pytest

from tests.trainer.conftest import RESIN, text


def test_a_data_sheet_is_shown_as_it_was_read(yard):
    resin = yard.new_resin()
    page = text(yard.client.get(f"/resins/{resin}"))
    assert "Tern Two (invented)" in page
    assert "Tolerance of the ratio 5 %" in page
    assert "Viscosity, mixed 300 cP" in page
    assert "Lowest temperature to work at 50 °F" in page
    assert "Highest injection pressure 45 psi" in page
    assert "Fill in what is open" not in page


def test_what_is_missing_is_open_and_can_be_filled_in_but_not_changed(yard):
    resin = yard.new_resin(gel_time_min="", max_pressure_mpa="")
    page = text(yard.client.get(f"/resins/{resin}"))
    assert "Gel time open: not on the sheet" in page
    assert "Lines still open: 2" in text(yard.client.get("/resins"))
    answer = yard.post(f"/resins/{resin}", gel_time_min="70 min", pot_life_min="5 min")
    assert answer.status_code == 303
    page = text(yard.client.get(f"/resins/{resin}"))
    assert "Gel time 70 min" in page
    assert "Pot life 30 min" in page
    assert "Highest injection pressure open" in page


@pytest.mark.parametrize(
    ("field", "typed", "sentence"),
    [
        ("name", "", "Write the name on the can."),
        ("parts_a", "2:1", "Type this side alone, as in 2."),
        ("ratio_tolerance", "60 %", "It must lie from"),
        ("density_a_g_per_ml", "1.15", "1.15 what? Add the unit"),
        ("viscosity_pa_s", "thin", "does not start with a number"),
        ("pot_life_min", "30 psi", "psi is for pressure"),
        ("pot_life_reference_c", "900 C", "It must lie from"),
        ("max_temperature_c", "40 F", "The lowest lies above the highest."),
    ],
)
def test_a_wrong_line_is_kept_beside_its_field(yard, field, typed, sentence):
    answer = yard.post("/resins/new", **(RESIN | {field: typed}))
    html = answer.get_data(as_text=True)
    assert answer.status_code == 422
    assert f'id="{field}-error-1"' in html
    assert sentence in text(answer)
    assert 'value="Invented data sheet, January 2026"' in html
    assert "No resins yet" in yard.page("/resins")


def test_a_name_stands_for_one_sheet_only(yard):
    yard.new_resin()
    answer = yard.post("/resins/new", **RESIN)
    assert answer.status_code == 422
    assert "There is a resin called Tern Two (invented) already." in text(answer)
