"""Pot life against temperature, as a band around the rule of thumb."""

from dataclasses import dataclass
from functools import partial

from app.drawing.plot_frame import (
    HEIGHT,
    WIDTH,
    Axis,
    across,
    frame,
    plumb,
    upwards,
)
from app.drawing.scales import even_ticks
from app.drawing.svg import path, picture, tag
from app.trade.pot_life import TEMPERATURE, pot_life_band
from app.trade.showing import System, show

AROUND_C = 10.0  # shown to either side of the data sheet's temperature and the resin's
STEPS = 20


@dataclass(frozen=True, slots=True)
class PotLifeWords:
    """The words of the plot, in the reader's language."""

    title: str
    description: str
    temperature: str
    pot_life: str
    resin_now: str


def pot_life_plot(
    reference_min: float,
    reference_c: float,
    temperature_c: float,
    words: PotLifeWords,
    system: System,
) -> str:
    """The band of pot life over temperature; the data sheet's own figure is a filled dot.

    Inputs:
        reference_min: pot life on the data sheet, min
        reference_c: at which the data sheet gives it, °C
        temperature_c: of the mixed resin on this job, °C
        words: in the reader's language
        system: metric or us, for the ticks
    Result: SVG text; the band as a filled shape, the band at `temperature_c` as a heavy stroke.
    Errors: OutOfRange outside the bounds of pot_life.
    Source: pot-life-halving, pot-life-band
    """
    low = max(float(TEMPERATURE.low or 0), min(reference_c, temperature_c) - AROUND_C)
    high = min(float(TEMPERATURE.high or 0), max(reference_c, temperature_c) + AROUND_C)
    at = [low + (high - low) * step / STEPS for step in range(STEPS + 1)]
    # The band's edges meet at the data sheet's temperature and cross over there.
    at = sorted({*at, reference_c})
    bands = [pot_life_band(reference_min, celsius, reference_c) for celsius in at]
    longest = max(band.high_min for band in bands)
    foot = Axis(
        across(low, high),
        even_ticks(low, high, "c" if system == "metric" else "f"),
        partial(show, quantity="temperature", system=system),
        words.temperature,
    )
    side = Axis(
        upwards(0, longest * 1.1),
        even_ticks(0, longest * 1.1, "min" if longest < 240 else "h"),
        partial(show, quantity="time", system=system),
        words.pot_life,
    )
    upper = [(foot.scale.at(c), side.scale.at(b.high_min)) for c, b in zip(at, bands, strict=True)]
    lower = [(foot.scale.at(c), side.scale.at(b.low_min)) for c, b in zip(at, bands, strict=True)]
    now = pot_life_band(reference_min, temperature_c, reference_c)
    x = foot.scale.at(temperature_c)
    parts = [
        *frame(foot, side),
        path([*upper, *reversed(lower)], "resin", is_closed=True),
        *plumb(foot, temperature_c, words.resin_now),
        path([(x, side.scale.at(now.low_min)), (x, side.scale.at(now.high_min))], "plot-now"),
        tag(
            "circle",
            class_="steel",
            cx=foot.scale.at(reference_c),
            cy=side.scale.at(reference_min),
            r=5,
        ),
    ]
    return picture("pot-life", WIDTH, HEIGHT, words.title, words.description, parts)
