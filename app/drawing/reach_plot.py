"""Reach against width: how far the front gets before gel, with the spacing marked."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from app.drawing.plot_frame import (
    HEIGHT,
    WIDTH,
    Axis,
    across,
    beside,
    frame,
    level,
    plumb,
    upwards,
)
from app.drawing.scales import ladder
from app.drawing.svg import Point, path, picture, tag
from app.trade.radial_flow import radial_reach
from app.trade.showing import System, show
from app.trade.slot_flow import WIDTH as WIDTHS
from app.trade.slot_flow import reach

SHOWN_MM = (0.05, 1.0)  # the widths this work is about; a crack outside stretches the axis
POINTS = 24


@dataclass(frozen=True, slots=True)
class Drive:
    """What pushes the resin, and for how long. Units in the names; the bounds are the trade's."""

    pressure_mpa: float
    viscosity_pa_s: float
    gel_time_min: float
    port_radius_mm: float
    growth_per_min: float = 0

    def straight_mm(self, width_mm: float) -> float:
        """Reach of a straight front before gel, mm."""
        time_s = self.gel_time_min * 60
        return reach(
            *(width_mm, self.pressure_mpa, self.viscosity_pa_s, time_s),
            growth_per_min=self.growth_per_min,
        )

    def round_mm(self, width_mm: float) -> float:
        """Reach of a round front before gel, mm."""
        return radial_reach(
            *(self.gel_time_min * 60, self.port_radius_mm),
            *(width_mm, self.pressure_mpa, self.viscosity_pa_s),
            growth_per_min=self.growth_per_min,
        )


@dataclass(frozen=True, slots=True)
class ReachWords:
    """The words of the plot, in the reader's language."""

    title: str
    description: str
    width: str
    reach: str
    straight: str
    round: str
    spacing: str
    this_crack: str


def reach_plot(
    drive: Drive, width_mm: float, spacing_mm: float, words: ReachWords, system: System
) -> str:
    """Both fronts' reach within the gel time over the width, on log axes.

    Inputs:
        drive: pressure, viscosity, gel time, radius of the port's opening, growth
        width_mm: this crack's, mm
        spacing_mm: chosen, mm
        words: in the reader's language
        system: metric or us, for the ticks
    Result: SVG text; one curve for each front, the spacing as a level, the crack as a plumb line.
    Errors: OutOfRange outside the bounds of slot_flow and radial_flow.
    Source: straight-front, radial-front
    """
    low = max(float(WIDTHS.low or 0), min(SHOWN_MM[0], width_mm / 2))
    high = min(float(WIDTHS.high or 0), max(SHOWN_MM[1], width_mm * 2))
    widths = [low * (high / low) ** (step / POINTS) for step in range(POINTS + 1)]
    fronts = (_curve(drive.straight_mm, widths), _curve(drive.round_mm, widths))
    reaches = [mm for curve in fronts for _, mm in curve]
    foot = Axis(
        across(low, high, is_log=True),
        ladder("width", system, low, high),
        partial(show, quantity="length", system=system),
        words.width,
    )
    bottom, top = min(*reaches, spacing_mm) / 1.3, max(*reaches, spacing_mm) * 1.6
    side = Axis(
        upwards(bottom, top, is_log=True),
        ladder("reach", system, bottom, top),
        partial(show, quantity="length", system=system),
        words.reach,
    )
    parts = [
        *frame(foot, side),
        *level(side, spacing_mm, words.spacing),
        *plumb(foot, width_mm, words.this_crack),
        *_front(fronts[0], foot, side, "resin line", words.straight),
        *_front(fronts[1], foot, side, "ink", words.round),
        *(_dot(foot, side, width_mm, mm(width_mm)) for mm in (drive.straight_mm, drive.round_mm)),
    ]
    return picture("reach", WIDTH, HEIGHT, words.title, words.description, parts)


def _curve(reach_mm: Callable[[float], float], widths: list[float]) -> list[Point]:
    return [(width, reach_mm(width)) for width in widths]


def _front(curve: list[Point], foot: Axis, side: Axis, class_: str, words: str) -> list[str]:
    """The curve with its name: above its upper half when it is the resin's, else below the lower.

    A curve rises to the right, so words that end above a point, or start below one, stay off it.
    """
    places = [(foot.scale.at(width), side.scale.at(mm)) for width, mm in curve]
    if "resin" in class_:
        x, y = places[POINTS * 5 // 8]
        return [path(places, class_), beside(x - 4, y - 10, words, "end")]
    x, y = places[POINTS // 5]
    return [path(places, class_), beside(x + 4, y + 17, words, "start")]


def _dot(foot: Axis, side: Axis, width_mm: float, reach_mm: float) -> str:
    return tag(
        "circle", class_="steel", cx=foot.scale.at(width_mm), cy=side.scale.at(reach_mm), r=5
    )
