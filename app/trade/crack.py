"""The crack as a thin slot: its depth, its mean width and the volume there is to fill."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.trade.calculator import Input, Output, calculator
from app.trade.errors import NotListed, OutOfRange, Refusal
from app.trade.units import UNITS

LENGTH = Input("length_mm", "mm", 1, 1_000_000, says="length along the crack")
DEPTH = Input("depth_mm", "mm", 1, 10_000, says="depth of the crack into the member")
WIDTH = Input("width_mm", "mm", 0.01, 25, says="width at the gauge")
END_WIDTH = Input("end_width_mm", "mm", 0, 25, says="width at the other end, or at the tip inside")
THICKNESS = Input("thickness_mm", "mm", 10, 10_000, says="thickness of the member")
STATIONS = Input(
    "stations_mm", "mm", 0, 1_000_000, kind="numbers", says="gauge points along the crack, in order"
)
WIDTHS = Input("widths_mm", "mm", 0, 25, kind="numbers", says="width at each gauge point")
EXTENT = Input("extent", "", None, None, "choice", ("one-sided", "full"), says="how far it goes")
MAYBE_DEPTH = Input(
    "depth_mm", "mm", 1, 10_000, default=None, says="depth as measured; for a one-sided crack"
)
VOLUME = Input("volume_ml", "ml", 0, 1e9, says="a volume")


class DepthNotKnown(Refusal):
    """A one-sided crack without a measured depth: the depth is never assumed."""

    template = "How deep is the crack? A crack seen on one side needs its depth measured."


@dataclass(frozen=True, slots=True)
class Volumes:
    """One volume in the units a crew buys and pours in."""

    ml: float
    l: float  # noqa: E741  (the unit's own name)
    floz: float
    gal: float
    in3: float


def depth_to_fill(extent: str, thickness_mm: float, depth_mm: float | None = None) -> float:
    """Depth that resin has to reach: the member's thickness, or the depth as measured.

    Inputs:
        extent: one-sided or full
        thickness_mm: thickness of the member, mm
        depth_mm: measured depth of a one-sided crack, mm; not above the thickness
    Result:
        depth_mm: mm
    Errors: OutOfRange, NotAChoice; DepthNotKnown for a one-sided crack without a depth.
    Source: crack-volume-geometry
    Example:
        >>> depth_to_fill("full", 200), depth_to_fill("one-sided", 200, 80)
        (200, 80)
    """
    EXTENT.check_choice(extent)
    THICKNESS.check(thickness_mm)
    depth = MAYBE_DEPTH.check_optional(depth_mm)
    if extent == "full":
        return thickness_mm
    if depth is None:
        raise DepthNotKnown
    if depth > thickness_mm:
        raise OutOfRange("depth_mm", depth, 1, thickness_mm, "mm")
    return depth


def crack_volume(length_mm: float, depth_mm: float, width_mm: float) -> float:
    """Volume of a crack of constant width.

    Inputs:
        length_mm: along the crack, mm
        depth_mm: into the member, mm
        width_mm: gauge width, mm
    Result:
        volume_ml: mL
    Errors: OutOfRange
    Source: crack-volume-geometry
    Example:
        >>> crack_volume(10_000, 200, 0.3)
        600.0
    """
    LENGTH.check(length_mm)
    DEPTH.check(depth_mm)
    WIDTH.check(width_mm)
    return length_mm * depth_mm * width_mm / 1000


def tapering_crack_volume(
    length_mm: float, depth_mm: float, width_mm: float, end_width_mm: float
) -> float:
    """Volume of a crack whose width runs evenly from one value to another.

    The taper may run along the crack or into the depth: the mean width is the same.

    Inputs:
        length_mm: along the crack, mm
        depth_mm: into the member, mm
        width_mm: width where it is measured, mm
        end_width_mm: width at the other end, mm; 0 where the crack closes
    Result:
        volume_ml: mL
    Errors: OutOfRange
    Source: crack-volume-geometry
    Example:
        >>> tapering_crack_volume(10_000, 200, 0.3, 0.1)
        400.0
    """
    LENGTH.check(length_mm)
    DEPTH.check(depth_mm)
    WIDTH.check(width_mm)
    END_WIDTH.check(end_width_mm)
    return length_mm * depth_mm * (width_mm + end_width_mm) / 2 / 1000


def mean_width(stations_mm: Sequence[float], widths_mm: Sequence[float]) -> float:
    """Mean width of a crack gauged at several points, each stretch by its length (trapezoids).

    Inputs:
        stations_mm: gauge points along the crack, rising, first and last at its ends, mm
        widths_mm: width at each of them, mm; 0 where the crack has closed
    Result:
        width_mm: mm
    Errors: OutOfRange; NotListed when the lists differ in length or the points do not rise.
    Source: crack-volume-geometry
    Example:
        >>> mean_width([0, 1000, 3000], [0.25, 0.5, 0.25])
        0.375
    """
    places = STATIONS.check_all(stations_mm, at_least=2)
    widths = WIDTHS.check_all(widths_mm, at_least=2)
    if len(places) != len(widths):
        raise NotListed("widths_mm", len(widths), f"{len(places)} widths needed, one a point")
    if any(after <= before for before, after in pairwise(places)):
        raise NotListed("stations_mm", list(places), "each point must lie beyond the one before")
    stretches = zip(pairwise(places), pairwise(widths), strict=True)
    area = sum((b - a) * (first + second) / 2 for (a, b), (first, second) in stretches)
    return area / (places[-1] - places[0])


def measured_crack_volume(
    stations_mm: Sequence[float], widths_mm: Sequence[float], depth_mm: float
) -> float:
    """Volume of a crack gauged at several points along its length.

    Inputs:
        stations_mm: gauge points along the crack, rising, first and last at its ends, mm
        widths_mm: width at each of them, mm
        depth_mm: into the member, mm
    Result:
        volume_ml: mL
    Errors: OutOfRange, NotListed
    Source: crack-volume-geometry
    Example:
        >>> measured_crack_volume([0, 1000, 3000], [0.25, 0.5, 0.25], 100)
        112.5
    """
    DEPTH.check(depth_mm)
    width = mean_width(stations_mm, widths_mm)
    return (stations_mm[-1] - stations_mm[0]) * depth_mm * width / 1000


def volume_in_units(volume_ml: float) -> Volumes:
    """One volume in mL, L, US fl oz, US gal and cubic inches.

    Inputs:
        volume_ml: mL
    Result:
        volumes: Volumes(ml, l, floz, gal, in3)
    Errors: OutOfRange
    Source: unit-definitions
    Example:
        >>> round(volume_in_units(434.19).floz, 2)
        14.68
    """
    VOLUME.check(volume_ml)
    return Volumes(*(volume_ml / float(UNITS[n].factor) for n in ("ml", "l", "floz", "gal", "in3")))


_SLOT = ("crack-volume-geometry",)
_ML = (Output("volume_ml", "ml"),)
_MM = (Output("width_mm", "mm"),)
_ALL = tuple(Output(name, name) for name in ("ml", "l", "floz", "gal", "in3"))

_TAPER = (LENGTH, DEPTH, WIDTH, END_WIDTH)
_GAUGED = (STATIONS, WIDTHS, DEPTH)
_REACH = (EXTENT, THICKNESS, MAYBE_DEPTH)

CALCULATORS = (
    calculator(depth_to_fill, "Depth to fill", _REACH, (Output("depth_mm", "mm"),), _SLOT),
    calculator(crack_volume, "Volume of a crack", (LENGTH, DEPTH, WIDTH), _ML, _SLOT),
    calculator(tapering_crack_volume, "Volume of a tapering crack", _TAPER, _ML, _SLOT),
    calculator(mean_width, "Mean of several widths", (STATIONS, WIDTHS), _MM, _SLOT),
    calculator(measured_crack_volume, "Volume from several widths", _GAUGED, _ML, _SLOT),
    calculator(volume_in_units, "One volume in every unit", (VOLUME,), _ALL, ("unit-definitions",)),
)
