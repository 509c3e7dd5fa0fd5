"""The plots: every curve and mark lies where the trade's own formulas put it."""

import math

import pytest

from app.drawing.pot_life_plot import PotLifeWords, pot_life_plot
from app.drawing.reach_plot import Drive, ReachWords, reach_plot
from app.drawing.resin_bar import Piece, resin_bar
from app.trade.errors import OutOfRange
from app.trade.radial_flow import radial_time
from app.trade.resin import resin_needed
from tests.drawing.reading_pictures import Picture, centre, even_axis, log_axis, points

REACH = ReachWords("Reach", "How far", "Width", "Reach", "straight", "round", "spacing", "here")
LIFE = PotLifeWords("Pot life", "How long", "Temperature", "Pot life", "here")
# trade-facts worked example 2: w 0.2 mm, 0.1 MPa, 0.3 Pa·s, 600 s reach 1.155 m.
DRIVE = Drive(pressure_mpa=0.1, viscosity_pa_s=0.3, gel_time_min=10, port_radius_mm=3)


@pytest.fixture(scope="module")
def reach() -> Picture:
    return Picture(reach_plot(DRIVE, 0.2, 200, REACH, "metric"))


def test_the_dots_stand_at_this_cracks_width_and_reach(reach: Picture):
    width = log_axis(*((reach.place_of(w)[0], v) for w, v in (("0.1 mm", 0.1), ("0.5 mm", 0.5))))
    # Ticks' words stand 5 below the foot of their letters.
    mm = log_axis(*((reach.place_of(w)[1] - 5, v) for w, v in (("300 mm", 300), ("3000 mm", 3000))))
    straight, spread = (centre(dot) for dot in reach.all("circle", "steel"))
    assert width(straight[0]) == pytest.approx(0.2, rel=0.005)
    assert mm(straight[1]) == pytest.approx(1155, rel=0.005)
    # The round front's distance, put into the integrated cubic law, gives the ten minutes back.
    assert radial_time(mm(spread[1]), 3, 0.2, 0.1, 0.3) == pytest.approx(600, rel=0.03)


def test_the_straight_curve_is_the_closed_form_at_every_width(reach: Picture):
    width = log_axis(*((reach.place_of(w)[0], v) for w, v in (("0.1 mm", 0.1), ("0.5 mm", 0.5))))
    mm = log_axis(*((reach.place_of(w)[1] - 5, v) for w, v in (("300 mm", 300), ("3000 mm", 3000))))
    curve = points(reach.one("path", "resin"))
    assert len(curve) == 25
    for x, y in curve:
        # L = w √(Δp t / (6 μ)), with w in metres.
        metres = width(x) / 1000 * math.sqrt(0.1e6 * 600 / (6 * 0.3))
        assert mm(y) / 1000 == pytest.approx(metres, rel=0.01)


def test_the_spacing_is_marked_at_its_own_height(reach: Picture):
    mm = log_axis(*((reach.place_of(w)[1] - 5, v) for w, v in (("300 mm", 300), ("3000 mm", 3000))))
    (level,) = [
        points(line) for line in reach.all("path", "ink") if line.get("stroke-dasharray") == "7 5"
    ]
    assert {round(mm(y)) for _, y in level} == {200}


def test_growing_viscosity_lowers_every_point_of_the_curve():
    slow = Drive(0.1, 0.3, 10, 3, growth_per_min=0.1)
    assert slow.straight_mm(0.2) < DRIVE.straight_mm(0.2)
    assert slow.round_mm(0.2) < DRIVE.round_mm(0.2)


def test_a_drive_outside_the_bounds_is_refused_not_drawn():
    with pytest.raises(OutOfRange, match="pressure_mpa is 0 "):
        reach_plot(Drive(0, 0.3, 10, 3), 0.2, 200, REACH, "metric")


def test_a_narrow_and_a_wide_crack_stay_on_the_plot():
    for width_mm in (0.01, 9.0):
        picture = Picture(reach_plot(DRIVE, width_mm, 150, REACH, "us"))
        assert len(picture.all("circle", "steel")) == 2


def test_the_band_at_31_degrees_is_12_to_20_minutes():
    # UFGS 09971 halves 30 min to 15 at 31 °C; factors 2.5 and 1.5 give 12 and 20 around it.
    picture = Picture(pot_life_plot(30, 21, 31, LIFE, "metric"))
    minutes = even_axis(
        *((picture.place_of(w)[1] - 5, v) for w, v in (("20 min", 20), ("60 min", 60)))
    )
    now = points(picture.one("path", "plot-now"))
    assert sorted(minutes(y) for _, y in now) == pytest.approx([12, 20], abs=0.1)
    celsius = even_axis(*((picture.place_of(w)[0], v) for w, v in (("20 °C", 20), ("40 °C", 40))))
    assert [celsius(x) for x, _ in now] == pytest.approx([31, 31], abs=0.1)


def test_the_band_pinches_at_the_data_sheets_own_figure():
    picture = Picture(pot_life_plot(30, 21, 31, LIFE, "metric"))
    dot = centre(picture.one("circle", "steel"))
    edge = points(picture.one("path", "resin"))
    assert sum(math.dist(dot, point) < 0.05 for point in edge) == 2


def test_fahrenheit_readers_see_fahrenheit():
    words = Picture(pot_life_plot(30, 21, 31, LIFE, "us")).words()
    assert {"60 °F", "80 °F", "100 °F"} <= set(words)
    assert not any("°C" in said for said in words)


def test_each_piece_of_the_bar_is_as_long_as_its_share():
    # A crack of 10 m × 200 mm × 0.3 mm holds 600 mL (geometry); 10 % waste, 60 mL, 200 mL.
    needed = resin_needed(10_000, 200, 0.3, waste=0.1, hold_up_ml=60, samples_ml=200)
    amounts = (needed.net_ml, needed.waste_ml, needed.hold_up_ml, needed.samples_ml)
    picture = Picture(resin_bar([Piece(ml, f"{ml} mL") for ml in amounts], "Resin", "Where"))
    bar = [r for r in picture.root.iter() if r.get("height") == "46"]
    total = sum(float(r.get("width", "")) for r in bar)
    shares = [float(r.get("width", "")) / total for r in bar]
    assert shares == pytest.approx([600 / 920, 60 / 920, 60 / 920, 200 / 920], abs=1e-3)
    assert {"600.0 mL", "60.0 mL", "200 mL"} <= set(picture.words())


def test_an_empty_piece_is_named_but_not_drawn():
    picture = Picture(resin_bar([Piece(600, "crack"), Piece(0, "waste")], "Resin", "Where"))
    assert len([r for r in picture.root.iter() if r.get("height") == "46"]) == 1
    assert "waste" in picture.words()


@pytest.mark.parametrize("amounts", [[0, 0], [5, -1], [1, 1, 1, 1, 1]])
def test_a_bar_of_nothing_or_of_too_much_is_refused(amounts: list[float]):
    with pytest.raises(ValueError, match=str(amounts[-1])):
        resin_bar([Piece(ml, "x") for ml in amounts], "t", "d")
