"""A trainer opens a job card: its numbers are the test's own, and nothing is assumed."""

import math
import re

import pytest
from flask.testing import FlaskClient

from tests.trainer.card_reading import OPTIONS, drawings, lines, number, plain

# The job of conftest: 12 ft long, 6 in deep, 20 mil wide, ports every 3 in.
LENGTH, DEPTH, WIDTH = 3657.6, 152.4, 0.508
NET = LENGTH * DEPTH * WIDTH / 1000
HOLD_UP = 2 * math.pi / 4 * (10**2 * 200 + 6**2 * 1000) / 1000
SAMPLES = 2 * 150 + 50
TOTAL = NET * 1.15 + HOLD_UP + SAMPLES


EXPECTED = {
    "The crack itself": NET,
    "Waste": NET * 0.15,
    "Left in mixer and tube": HOLD_UP,
    "Caught for samples": SAMPLES,
    "Resin to have ready": TOTAL,
    "A, by volume": TOTAL * 2 / 3,
    "B, by volume": TOTAL / 3,
    "A, by weight": TOTAL * 2 / 3 * 1.15,
    "B, by weight": TOTAL / 3 * 0.98,
    "Strip": LENGTH * 30 * 2 / 1000,
    "Collars": 49 * math.pi / 4 * (40**2 - 20**2) * 5 / 1000,  # 48 gaps of 3 in, 49 ports
    "Purge, both hoses": 2 * math.pi / 4 * 10**2 * 15_000 / 1000 / 1000,  # L
    "Solvent, both sides": 2 * 3785.411784 / 8,  # two US pints
    "Pot life, shortest to expect": 30 / 2.5,  # 10 °C over the sheet's 21 °C
    "Pot life, longest to expect": 30 / 1.5,
    "Largest batch": 12 * 20,  # shortest pot life × placing rate
    "Batches": math.ceil(TOTAL / 240),
    "Each batch": TOTAL / math.ceil(TOTAL / 240),
    "Time there is": 12,  # shorter than the 70 min of the sheet
    # w √(Δp t / (6 μ)), in mm
    "Reach, straight front": 0.508 * math.sqrt(0.2e6 * 720 / (6 * 0.3)),
    "Dust collector draws at least": 5 * 25 * 1.69901,  # 25 cfm an inch, 29 CFR 1926.1153
    # NIOSH: mg/m³ = ppm · M / 24.45, for two pints of xylene in 50 m³
    "Vapour, if all of it evaporates": 946.353 * 0.864 * 1000 / 50 * 24.45 / 106.16,
}

# A value of the sheet, a line of the card, and what the line says is missing.
OPEN_WITHOUT = [
    ("parts_a", "A, by volume", "parts of A by volume"),
    ("parts_b", "B, by volume", "parts of B by volume"),
    ("density_a_g_per_ml", "A, by weight", "density of A"),
    ("density_b_g_per_ml", "B, by weight", "density of B"),
    ("viscosity_pa_s", "Reach before gel", "viscosity, mixed"),
    ("pot_life_min", "Pot life, shortest to expect", "pot life"),
    ("pot_life_min", "Largest batch", "pot life"),
    (
        "pot_life_reference_c",
        "Pot life, longest to expect",
        "temperature the pot life is given at",
    ),
    ("gel_time_min", "Reach before gel", "gel time"),
    ("gel_time_min", "Gel time", "gel time"),
    ("min_temperature_c", "Temperature for the resin", "lowest temperature to work at"),
    ("max_temperature_c", "Temperature for the resin", "highest temperature to work at"),
    ("max_pressure_mpa", "Pressure for the resin", "highest injection pressure"),
]


def in_metric(client: FlaskClient) -> None:
    client.post("/show", data={"units": "metric"})


@pytest.fixture
def card(yard) -> str:
    """The page of a card for which everything is typed, in metric."""
    in_metric(yard.client)
    return opened(yard, yard.new_job())


def opened(yard, job: str, **changes: str) -> str:
    answer = yard.post(f"/jobs/{job}/card/options", **(OPTIONS | changes))
    assert answer.status_code == 303, plain(answer.get_data(as_text=True))
    return yard.page(f"/jobs/{job}/card")


def test_numbers_are_the_tests_own_arithmetic(card: str):
    said = lines(card)
    shown = {label: number(said[label]) for label in EXPECTED}
    assert shown == pytest.approx(EXPECTED, rel=0.006)


def test_crack_of_the_worked_example(yard):
    # 12 ft × 8 in × 0.020 in with 15 % waste is 14.68 US fl oz (geometry, 231 in³ to the gallon).
    job = yard.new_job(thickness="8 in")
    yard.post(f"/jobs/{job}/card/options", waste="15")
    said = lines(yard.page(f"/jobs/{job}/card"))
    assert said["Total so far"].startswith("14.7 fl oz")
    assert said["The crack itself"].startswith("12.8 fl oz")


def test_each_batch_has_its_clock_time(card: str):
    # 12 min from mixing; each batch takes its size over 20 mL/min to place.
    each = TOTAL / 4
    rows = re.findall(r"<strong>(\d\d:\d\d)</strong>", card)
    assert len(rows) == math.ceil(TOTAL / 240) == 4
    for number_, out_by in enumerate(rows):
        minutes = 8 * 60 + 30 + number_ * each / 20 + 12
        assert out_by == f"{int(minutes) // 60:02d}:{int(minutes) % 60:02d}"


def test_nothing_typed_leaves_the_lines_open_and_says_what_is_missing(yard):
    said = lines(yard.page(f"/jobs/{yard.new_job()}/card"))
    assert said["Waste"] == "missing: share for waste"
    assert said["Left in mixer and tube"].startswith("missing: mixer, inside across, length of")
    assert "Total so far" in said
    assert "Resin to have ready" not in said
    assert said["Pot life, shortest to expect"] == "missing: temperature of the resin"
    assert said["Paste to mix"].startswith("missing: width of the seal")
    assert "pressure at the port" in said["Reach before gel"]


def test_a_value_missing_on_the_sheet_leaves_its_line_open(yard):
    for name, label, words in OPEN_WITHOUT:
        resin = yard.new_resin(name=f"Without {name} and {label} (invented)", **{name: ""})
        page = opened(yard, yard.new_job(resin=resin))
        assert lines(page)[label] == f"missing: {words}"
        assert re.search(rf">{words}</span>\s*<span class=\"want\">missing", page), name


def test_without_a_tolerance_the_ratio_band_stays_open(yard):
    resin = yard.new_resin(name="Gap (invented)", ratio_tolerance="")
    said = plain(opened(yard, yard.new_job(resin=resin)))
    assert "the data sheet is missing: tolerance of the ratio" in said
    assert "B must lie from" not in said


def test_the_ratio_band_is_that_of_the_sheet(card: str):
    # 2:1 and ±5 % on B: 47.5 to 52.5 mL for 100 mL of A (worked example of the ratio test).
    said = "B must lie from 0.475 × A to 0.525 × A. For 100 mL of A: from 47.5 mL to 52.5 mL of B."
    assert said in plain(card)


def test_a_port_out_of_reach_is_warned_of(yard):
    near = opened(yard, yard.new_job())
    assert "may gel before it reaches the next port" not in plain(near)
    assert lines(near)["Next port before gel"] == "reached, by both models"
    thick = yard.new_resin(name="Thick (invented)", viscosity_pa_s="100 Pa s")
    far = opened(yard, yard.new_job(resin=thick, width="2 mil"), pressure_mpa="0.01 MPa")
    # w √(Δp t / (6 μ)) = 0.0508 mm · √(0.01e6 · 720 / 600) = 0.18 mm, far short of 76 mm.
    assert lines(far)["Next port before gel"] == "NOT before gel"
    assert "NOTICE The resin may gel before it reaches the next port" in plain(far)


def test_the_narrowest_gauge_decides_the_reach_and_the_mean_the_volume(yard):
    in_metric(yard.client)
    page = opened(yard, yard.new_job(), gauges="0, 0.5 mm; 6 ft, 0.3 mm; 12 ft, 0.1 mm")
    said = lines(page)
    assert number(said["The crack itself"]) == pytest.approx(LENGTH * DEPTH * 0.3 / 1000, rel=0.005)
    reach = 0.1 * math.sqrt(0.2e6 * 720 / (6 * 0.3))
    assert number(said["Reach, straight front"]) == pytest.approx(reach, rel=0.005)


def test_pressure_and_warmth_outside_their_limits_are_said(yard):
    page = opened(yard, yard.new_job(), pressure_mpa="0.35 MPa", resin_temperature_c="40 C")
    said = lines(page)
    # EM 1110-2-2002 §6-22c(3): surface ports leaked from 0.3 MPa; the sheet ends at 45 psi, 90 °F.
    assert said["Pressure for these ports"] == "MAY LEAK: such ports leaked here"
    assert said["Pressure for the resin"] == "OUTSIDE the data sheet"
    assert said["Temperature for the resin"] == "OUTSIDE the data sheet"
    assert "Ports of this kind leaked at the pressure planned" in plain(page)


def test_vapour_above_the_explosive_limit_is_danger_and_below_a_warning(yard):
    job = yard.new_job()
    # 7532 ppm in 25 m³ is under the 9000 ppm of NIOSH's 0.9 %, twice that in 12.5 m³ over it.
    assert "signal-danger" not in opened(yard, job, space_ml="25 m3")
    page = opened(yard, job, space_ml="12.5 m3")
    assert page.count("signal-danger") == 1
    assert "1.7 × the lower explosive limit" in plain(page)


def test_grinding_indoors_for_five_hours_asks_for_a_respirator(card: str):
    # 29 CFR 1926.1153 table 1 (xii): above 4 h indoors APF 10.
    assert lines(card)["Respirator for grinding"] == "protection factor 10 or more"


def test_the_sketch_and_the_log_have_the_same_ports(card: str):
    sketch = drawings(card)[0]
    rings = sketch.count('class="port-ring"') + sketch.count('<circle class="resin"')
    log = card[card.index('id="log"') :]
    assert rings == 49
    assert re.findall(r'<th scope="row">(\d+)</th>', log) == [str(n) for n in range(1, 50)]


def test_every_rule_of_spacing_stands_beside_the_one_chosen(card: str):
    said = plain(card[card.index('id="spacing"') : card.index('id="safety"')])
    assert "76.2 mm (3 in) chosen by E. Invented, engineer" in said
    assert "Half the thickness" in said.split("76.2 mm followed")[0]
    for rule in ("No more than the crack's depth", "A fixed spacing", "More than the thickness"):
        assert rule in said


def test_what_is_only_remembered_is_marked(card: str):
    rules = card[card.index('id="spacing"') : card.index('id="safety"')]
    row = rules[rules.index("About the thickness") :].split("</th>")[0]
    assert "from memory" in row
    other = rules[rules.index("A fixed spacing") :].split("</th>")[0]
    assert "from memory" not in other


def test_every_number_leads_to_its_source_on_the_page(card: str):
    wanted = set(re.findall(r'href="#(src-[\w-]+)"', card))
    ids = re.findall(r'\bid="([^"]+)"', card)
    assert len(wanted) > 20
    assert wanted <= set(ids)
    assert len(ids) == len(set(ids)), [i for i in ids if ids.count(i) > 1]


def test_the_engineer_comes_first(card: str):
    assert "The engineer decides." in plain(card)


def test_one_tap_turns_the_card_into_the_other_units(yard):
    page = opened(yard, yard.new_job())
    assert lines(page)["The crack itself"] == "9.58 fl oz"
    in_metric(yard.client)
    again = yard.page(yard.client.get("/jobs").request.path)
    assert again
    job = re.search(r"/jobs/([\w-]{36})", again)
    assert job
    assert lines(yard.page(f"/jobs/{job[1]}/card"))["The crack itself"] == "283 mL"


def test_a_crack_with_more_ports_than_a_card_holds_says_so(yard):
    page = opened(yard, yard.new_job(length="100 ft"))
    assert "401 ports are too many for one card" in plain(page)
    assert 'class="log to-fill' not in page
