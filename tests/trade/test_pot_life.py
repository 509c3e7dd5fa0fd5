"""Pot life at a temperature and the gel-time gate."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.errors import OutOfRange
from app.trade.pot_life import gel_time_gate, pot_life, pot_life_band

temperatures = st.floats(-10, 60)


@pytest.mark.parametrize(("temperature_c", "minutes"), [(31, 15.0), (26, 21.2), (11, 60.0)])
def test_thirty_minutes_at_21_degrees(temperature_c: float, minutes: float) -> None:
    # trade-facts §7 example 6; UFGS 09971 §3.7.1.3.
    assert round(pot_life(30, temperature_c), 1) == minutes


def test_the_same_rule_in_fahrenheit() -> None:
    # UFGS 09971 halves and doubles per 18 °F as well: 70 °F to 88 °F is 10 °C.
    celsius = [(f - 32) / 1.8 for f in (70, 88)]
    assert pot_life(30, celsius[1], reference_c=celsius[0]) == pytest.approx(15, rel=1e-12)


@given(st.floats(1, 1440), temperatures, temperatures)
def test_warmer_resin_never_lives_longer(reference: float, one: float, other: float) -> None:
    cold, warm = sorted((one, other))
    assert pot_life(reference, warm) <= pot_life(reference, cold)


@given(st.floats(1, 1440), temperatures)
def test_the_published_factor_lies_inside_the_band(reference: float, temperature_c: float) -> None:
    band = pot_life_band(reference, temperature_c)
    slack = 1 + 1e-12
    assert band.low_min <= pot_life(reference, temperature_c) * slack
    assert pot_life(reference, temperature_c) <= band.high_min * slack


def test_the_band_closes_at_the_reference_and_turns_round_below_it() -> None:
    at = pot_life_band(30, 21)
    assert (at.low_min, at.high_min) == (30, 30)
    # By hand: 30 · 1.5 and 30 · 2.5 ten degrees colder.
    colder = pot_life_band(30, 11)
    assert (colder.low_min, colder.high_min) == (45, 75)


@pytest.mark.parametrize(
    ("gel_min", "at_c", "verdict"),
    [
        # EM 1110-2-2002 §6-22e(3): about one hour at 22 °C.
        (60, 22, "long-enough"),
        (59.9, 22, "too-short"),
        # By hand: 100 min at 32 °C are 150 to 250 min at 22 °C; 30 min are 45 to 75; 20 are 30-50.
        (100, 32, "long-enough"),
        (30, 32, "cannot-tell"),
        (20, 32, "too-short"),
        # Stated colder than 22 °C the band lies below: 120 min at 12 °C are 48 to 80 min.
        (120, 12, "cannot-tell"),
    ],
)
def test_a_resin_for_low_pressure_work_stays_fluid_for_an_hour(
    gel_min: float, at_c: float, verdict: str
) -> None:
    gate = gel_time_gate(gel_min, at_c)
    assert gate.verdict == verdict
    assert gate.is_within is (verdict == "long-enough")
    assert gate.needed_min == 60


@pytest.mark.parametrize("temperature_c", [-10.1, 60.1, float("nan")])
def test_a_temperature_no_resin_is_placed_at_is_refused(temperature_c: float) -> None:
    with pytest.raises(OutOfRange, match="temperature_c"):
        pot_life(30, temperature_c)
