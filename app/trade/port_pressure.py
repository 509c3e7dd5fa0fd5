"""The pressure at a port against the band in which ports of its kind leaked."""

from dataclasses import dataclass
from typing import Final

from app.trade.calculator import Calculator, Input, Output, calculator

KIND = Input("kind", "", None, None, kind="choice", choices=("surface", "drilled"))
PRESSURE = Input("pressure_mpa", "mpa", 0, 30, says="at the port")

# EM 1110-2-2002 §6-22c(3)(a): the pressures at which ports of each kind leaked in trials.
LEAKS_FROM_TO_MPA: Final = {"surface": (0.3, 1.0), "drilled": (1.4, 1.9)}
# EM 1110-2-2002 §6-22c: "high pressure" starts here; MLIT §4.3.4: low-pressure injectors end here.
HIGH_PRESSURE_FROM_MPA: Final = 0.35
INJECTOR_MOST_MPA: Final = 0.4


@dataclass(frozen=True, slots=True)
class PortPressure:
    """A port's pressure beside the band in which ports of its kind leaked."""

    kind: str
    pressure_mpa: float
    leaks_from_mpa: float
    leaks_to_mpa: float
    verdict: str  # normal | may-leak | leaks
    is_low_pressure: bool  # below the start of "high pressure"
    is_injector_range: bool  # at or under what low-pressure injectors hold
    is_within: bool  # below the band in which such ports leaked


def port_pressure_check(kind: str, pressure_mpa: float) -> PortPressure:
    """A port's pressure against the band in which ports of its kind leaked.

    Inputs:
        kind: surface (bonded on the wall) or drilled (set in a hole)
        pressure_mpa: at the port, MPa
    Result:
        kind: as given
        pressure_mpa: as given, MPa
        leaks_from_mpa: lowest pressure at which such ports leaked, MPa
        leaks_to_mpa: highest pressure at which such ports leaked, MPa
        verdict: normal below the band, may-leak in it (both ends included), leaks above it
        is_low_pressure: below 0.35 MPa, where high pressure starts
        is_injector_range: at or below 0.4 MPa, the most that low-pressure injectors hold
        is_within: the verdict is normal
    Errors: NotAChoice for another kind; OutOfRange outside the bounds of pressure_mpa.
    Source: port-pressure, pressure-high-starts, pressure-low-injectors
    Example:
        >>> port_pressure_check("surface", 0.35).verdict
        'may-leak'
    """
    low, high = LEAKS_FROM_TO_MPA[KIND.check_choice(kind)]
    PRESSURE.check(pressure_mpa)
    verdict = "normal" if pressure_mpa < low else "may-leak" if pressure_mpa <= high else "leaks"
    return PortPressure(
        kind,
        pressure_mpa,
        low,
        high,
        verdict,
        is_low_pressure=pressure_mpa < HIGH_PRESSURE_FROM_MPA,
        is_injector_range=pressure_mpa <= INJECTOR_MOST_MPA,
        is_within=verdict == "normal",
    )


CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        port_pressure_check,
        "Pressure at a port",
        (KIND, PRESSURE),
        (
            Output("kind", ""),
            Output("pressure_mpa", "mpa"),
            Output("leaks_from_mpa", "mpa"),
            Output("leaks_to_mpa", "mpa"),
            Output("verdict", ""),
            Output("is_low_pressure", ""),
            Output("is_injector_range", ""),
            Output("is_within", ""),
        ),
        ("port-pressure", "pressure-high-starts", "pressure-low-injectors"),
    ),
)
