"""Pot life: how long mixed resin stays usable at its temperature, and the gel-time gate.

The rule behind it is a rule of thumb: the pot life is divided by a factor for every 10 °C warmer
and multiplied by it for every 10 °C colder. The published factor is 2; a band from 1.5 to 2.5 shows
how little that is worth far from the reference. The data sheet's own table comes first.
"""

from dataclasses import dataclass
from typing import Final

from app.trade.calculator import Calculator, Input, Output, calculator

REFERENCE = Input("reference_min", "min", 1, 1440, says="pot life on the product data sheet")
TEMPERATURE = Input("temperature_c", "c", -10, 60, says="of the mixed resin")
REFERENCE_C = Input("reference_c", "c", 0, 40, default=21, says="at which the data sheet gives it")
FACTOR = Input("factor", "", 1, 4, default=2, says="for every 10 °C")
LOW_FACTOR = Input("low_factor", "", 1, 4, default=1.5, says="for every 10 °C, one end")
HIGH_FACTOR = Input("high_factor", "", 1, 4, default=2.5, says="for every 10 °C, the other end")

GEL_TIME = Input("gel_time_min", "min", 1, 1440, says="gel time on the product data sheet")
GEL_TIME_C = Input("gel_time_c", "c", 0, 40, default=22, says="at which the data sheet gives it")

# EM 1110-2-2002 §6-22e(3): about one hour at 22 °C for low-pressure work.
GATE_MIN: Final = 60.0
GATE_C: Final = 22.0


@dataclass(frozen=True, slots=True)
class PotLifeBand:
    """The shortest and the longest pot life the rule of thumb allows."""

    low_min: float
    high_min: float


@dataclass(frozen=True, slots=True)
class GelTimeGate:
    """A gel time brought to 22 °C as a band, beside the hour that low-pressure work asks for."""

    low_min: float
    high_min: float
    needed_min: float
    verdict: str  # long-enough | too-short | cannot-tell
    is_within: bool  # long-enough


def pot_life(
    reference_min: float, temperature_c: float, reference_c: float = 21, factor: float = 2
) -> float:
    """Pot life at a temperature by the rule of thumb: the factor once for every 10 °C.

    Inputs:
        reference_min: pot life on the product data sheet, min
        temperature_c: of the mixed resin, °C
        reference_c: temperature at which the data sheet gives it, °C
        factor: for every 10 °C, plain number; 2 is published, for coatings
    Result:
        minutes: min
    Errors: OutOfRange outside the bounds of its inputs.
    Source: pot-life-halving
    Example:
        >>> pot_life(30, 31)
        15.0
    """
    REFERENCE.check(reference_min)
    TEMPERATURE.check(temperature_c)
    REFERENCE_C.check(reference_c)
    FACTOR.check(factor)
    return float(reference_min * factor ** ((reference_c - temperature_c) / 10))


def pot_life_band(
    reference_min: float,
    temperature_c: float,
    reference_c: float = 21,
    low_factor: float = 1.5,
    high_factor: float = 2.5,
) -> PotLifeBand:
    """Pot life at a temperature as a band: the same rule with a low and a high factor.

    Inputs:
        reference_min: pot life on the product data sheet, min
        temperature_c: of the mixed resin, °C
        reference_c: temperature at which the data sheet gives it, °C
        low_factor: for every 10 °C, plain number
        high_factor: for every 10 °C, plain number
    Result:
        low_min: the shorter end, min
        high_min: the longer end, min; the two are equal at the reference temperature
    Errors: OutOfRange outside the bounds of its inputs.
    Source: pot-life-halving, pot-life-band
    Example:
        >>> pot_life_band(30, 31)
        PotLifeBand(low_min=12.0, high_min=20.0)
    """
    LOW_FACTOR.check(low_factor)
    HIGH_FACTOR.check(high_factor)
    ends = [
        pot_life(reference_min, temperature_c, reference_c, factor)
        for factor in (low_factor, high_factor)
    ]
    return PotLifeBand(min(ends), max(ends))


def gel_time_gate(gel_time_min: float, gel_time_c: float = 22) -> GelTimeGate:
    """Does the resin stay fluid for the hour that low-pressure work asks for?

    The source says "about one hour at 22 °C"; read here as at least 60 min. A gel time stated at
    another temperature is brought to 22 °C as a band, and a band across the hour cannot tell.

    Inputs:
        gel_time_min: gel time on the product data sheet, min
        gel_time_c: temperature at which the data sheet gives it, °C
    Result:
        low_min: shorter end at 22 °C, min
        high_min: longer end at 22 °C, min
        needed_min: 60 min
        verdict: long-enough, too-short or cannot-tell
        is_within: the verdict is long-enough
    Errors: OutOfRange outside the bounds of its inputs.
    Source: gel-time-low-pressure, pot-life-halving, pot-life-band
    Example:
        >>> gel_time_gate(45).verdict
        'too-short'
    """
    GEL_TIME.check(gel_time_min)
    band = pot_life_band(gel_time_min, GATE_C, GEL_TIME_C.check(gel_time_c))
    if band.low_min >= GATE_MIN:
        verdict = "long-enough"
    else:
        verdict = "too-short" if band.high_min < GATE_MIN else "cannot-tell"
    is_within = verdict == "long-enough"
    return GelTimeGate(band.low_min, band.high_min, GATE_MIN, verdict, is_within)


CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        pot_life,
        "Pot life at a temperature",
        (REFERENCE, TEMPERATURE, REFERENCE_C, FACTOR),
        (Output("minutes", "min"),),
        ("pot-life-halving",),
    ),
    calculator(
        pot_life_band,
        "Pot life at a temperature, as a band",
        (REFERENCE, TEMPERATURE, REFERENCE_C, LOW_FACTOR, HIGH_FACTOR),
        (Output("low_min", "min"), Output("high_min", "min")),
        ("pot-life-halving", "pot-life-band"),
    ),
    calculator(
        gel_time_gate,
        "Gel time for low-pressure work",
        (GEL_TIME, GEL_TIME_C),
        (
            Output("low_min", "min"),
            Output("high_min", "min"),
            Output("needed_min", "min"),
            Output("verdict", ""),
            Output("is_within", ""),
        ),
        ("gel-time-low-pressure", "pot-life-halving", "pot-life-band"),
    ),
)
