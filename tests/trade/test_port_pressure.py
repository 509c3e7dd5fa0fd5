"""Pressure at a port: EM 1110-2-2002 §6-22c."""

import pytest

from app.trade.errors import NotAChoice, OutOfRange
from app.trade.port_pressure import port_pressure_check


@pytest.mark.parametrize(
    ("kind", "pressure_mpa", "verdict"),
    [
        # trade-facts §7 example 13
        ("surface", 0.25, "normal"),
        ("surface", 0.35, "may-leak"),
        ("surface", 1.1, "leaks"),
        ("drilled", 1.1, "normal"),
        # the bands' own ends, EM 1110-2-2002 §6-22c(3)(a)
        ("surface", 0.3, "may-leak"),
        ("surface", 1.0, "may-leak"),
        ("drilled", 1.4, "may-leak"),
        ("drilled", 1.9, "may-leak"),
        ("drilled", 1.91, "leaks"),
    ],
)
def test_ports_against_the_bands_in_which_their_kind_leaked(
    kind: str, pressure_mpa: float, verdict: str
) -> None:
    found = port_pressure_check(kind, pressure_mpa)
    assert found.verdict == verdict
    assert found.is_within is (verdict == "normal")


@pytest.mark.parametrize(
    ("pressure_mpa", "is_low", "is_injector"),
    [(0.349, True, True), (0.35, False, True), (0.4, False, True), (0.41, False, False)],
)
def test_where_low_pressure_ends_depends_on_who_says_it(
    pressure_mpa: float, is_low: bool, is_injector: bool
) -> None:
    # High pressure starts at 350 kPa: EM 1110-2-2002 §6-22c. Injectors to 0.4 N/mm²: MLIT §4.3.4.
    found = port_pressure_check("drilled", pressure_mpa)
    assert (found.is_low_pressure, found.is_injector_range) == (is_low, is_injector)


def test_an_unknown_kind_and_a_gauge_reading_below_zero_are_refused() -> None:
    with pytest.raises(NotAChoice, match="glued"):
        port_pressure_check("glued", 0.2)
    with pytest.raises(OutOfRange, match=r"-0\.1"):
        port_pressure_check("surface", -0.1)
