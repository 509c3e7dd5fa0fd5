"""``lowport calc`` in a shell: results, units, and what each exit status means."""

import json

import pytest

from app.cli import main
from app.trade.registry import CALCULATORS


@pytest.fixture
def shell(monkeypatch, capsys):
    def run(*words):
        monkeypatch.setattr("sys.argv", ["lowport", *words])
        with pytest.raises(SystemExit) as ended:
            main()
        out, err = capsys.readouterr()
        return ended.value.code, out, err

    return run


def test_a_bare_number_is_in_the_inputs_own_unit(shell):
    status, out, _ = shell("calc", "crack_volume", "length_mm=10000", "depth_mm=200", "width_mm=.3")
    assert status == 0
    assert "volume_ml: 600 mL" in out
    assert "crack-volume-geometry" in out


def test_units_are_converted_and_names_may_carry_hyphens(shell):
    # Geometry: 12 ft × 8 in × 20 mil + 15 % is 14.6818 US fl oz, or 434.192 mL.
    words = ("length-mm=12 ft", "depth-mm=8 in", "width-mm=20 mil", "waste=15 %", "--json")
    status, out, _ = shell("calc", "resin-needed", *words)
    assert status == 0
    told = json.loads(out)
    assert told["result"]["total_ml"] == pytest.approx(434.192, abs=5e-4)
    assert told["units"]["total_ml"] == "ml"


def test_lists_flags_choices_and_drawings(shell):
    status, out, _ = shell(
        "calc", "mean_width", "stations_mm=0,1 m,3000", "widths_mm=0.25,0.5,0.25"
    )
    assert (status, "width_mm: 0.375 mm" in out) == (0, True)
    status, out, _ = shell(
        *("calc", "port_layout", "crack_mm=0,0 0,900", "spacing_mm=300"),
        *("orientation=vertical", "branches_mm=0,600 200,700"),
    )
    assert (status, "count: 5" in out) == (0, True)
    status, out, _ = shell(
        *("calc", "repair_choice", "movement=dormant", "pattern=isolated", "strength_wanted=true"),
        *("water=dry", "width_mm=0.3", "temperature_c=18", "member=plain", "--json"),
    )
    assert (status, json.loads(out)["result"]["choice"]) == (0, "inject")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("calc", "nothing_like_it"), "no calculator nothing_like_it"),
        (("calc",), "Which calculator?"),
        (("calc", "crack_volume", "length_mm=1", "colour=2"), "colour=2"),
        (("calc", "crack_volume", "length_mm"), "length_mm"),
        (("calc", "crack_volume", "length_mm=1"), "Missing: depth_mm, width_mm"),
        (("calc", "crack_volume", "length_mm=1", "length_mm=2"), "given twice"),
    ],
)
def test_wrong_usage_ends_with_two(shell, words, says):
    status, _, err = shell(*words)
    assert status == 2
    assert says in err


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ("length_mm=0", "length_mm is 0 mm. It must lie from 1 to 1000000 mm."),
        ("length_mm=1,5", "What does the comma"),
        ("length_mm=4 lb", "lb is for mass"),
        ("length_mm=nan", "does not start with a number"),
    ],
)
def test_a_refusal_ends_with_one_and_its_sentence(shell, changed, says):
    status, _, err = shell("calc", "crack_volume", changed, "depth_mm=200", "width_mm=0.3")
    assert status == 1
    assert says in err


def test_words_and_flags_off_the_list_are_refusals(shell):
    status, _, err = shell("calc", "next_port", "port=1", "count=3", "orientation=sideways")
    assert (status, "'sideways'" in err) == (1, True)
    status, _, err = shell(
        "calc", "respirator_for_grinding", "indoors=perhaps", "hours=2", "controls_in_place=true"
    )
    assert (status, "'perhaps'" in err) == (1, True)


def test_the_list_names_every_calculator(shell):
    status, out, _ = shell("calc", "--list")
    assert status == 0
    assert [line.split()[0] for line in out.splitlines()] == list(CALCULATORS)


def test_the_list_of_one_shows_its_inputs_and_bounds(shell):
    status, out, _ = shell("calc", "crack_volume", "--list")
    assert status == 0
    assert "width_mm (mm) from 0.01 to 25" in out


def test_a_name_may_leave_its_unit_to_the_value(shell):
    """12 ft x 8 in x 20 mil with 15 % waste is 14.68 US fl oz (geometry): 434.2 mL."""
    words = ("length=12 ft", "depth=8 in", "width=20 mil", "waste=15 %")
    status, out, _ = shell("calc", "resin-needed", *words)
    assert status == 0
    assert "total_ml: 434.19" in out


def test_what_is_not_there_is_not_called_none(shell):
    words = ("indoors=true", "hours=5", "controls_in_place=false")
    _, out, _ = shell("calc", "respirator-for-grinding", *words)
    assert "apf: not given" in out
