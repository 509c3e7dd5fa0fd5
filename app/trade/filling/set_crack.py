"""The type of a set crack, and the plain one that the others are changed from."""

from dataclasses import dataclass

from app.trade.filling.crack import Crack
from app.trade.filling.parts import Port, Roughness, WidthAt
from app.trade.filling.supply import Pump, Resin
from app.trade.pot_life import pot_life
from app.trade.viscosity import growth_from_doubling

GEL_MIN = 60.0  # at 21 °C
DOUBLING_MIN = 20.0


@dataclass(frozen=True, slots=True)
class SetCrack:
    """One set crack: its name, its level of difficulty, what it teaches, and the crack.

    book_fills: from what to what share of the crack somebody fills who follows the book.
    """

    name: str
    level: int
    title: str
    teaches: str
    crack: Crack
    book_fills: tuple[float, float]


def resin(viscosity_pa_s: float = 0.3, temperature_c: float = 21, age_min: float = 0) -> Resin:
    """An invented resin. Its gel time and its thickening follow the pot-life rule of thumb."""
    slower = pot_life(GEL_MIN, temperature_c) / GEL_MIN
    return Resin(
        viscosity_pa_s,
        growth_per_min=growth_from_doubling(DOUBLING_MIN * slower),
        gel_time_s=GEL_MIN * slower * 60,
        age_s=age_min * 60,
    )


def even(width_mm: float) -> tuple[WidthAt, ...]:
    """The same gauge width all along."""
    return (WidthAt(0, width_mm / 1000),)


def rough(seed: int) -> Roughness:
    """The roughness of every set crack, each with its own seed."""
    return Roughness(share=0.2, patch_m=0.03, seed=seed)


def ports_every(length_m: float, spacing_m: float) -> tuple[Port, ...]:
    """Ports at both ends of the main crack and evenly between."""
    gaps = round(length_m / spacing_m)
    return tuple(Port(length_m * port / gaps) for port in range(gaps + 1))


PLAIN = Crack(
    1.5,
    0.2,
    even(0.3),
    ports_every(1.5, 0.25),
    resin(),
    Pump(pressure_pa=150_000, flow_m3_per_s=2e-6),
    roughness=rough(11),
    columns=75,
    rows=20,
)
