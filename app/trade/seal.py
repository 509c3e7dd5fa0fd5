"""The paste seal: how much to mix for the strip and the collars, in two equal parts."""

import math
from dataclasses import dataclass

from app.trade.calculator import Input, Output, calculator
from app.trade.crack import LENGTH
from app.trade.errors import OutOfRange
from app.trade.mixing import TOTAL, Parts

SEAL_WIDTH = Input("width_mm", "mm", 1, 500, says="width of the strip")
SEAL_THICKNESS = Input("thickness_mm", "mm", 0.1, 50, says="thickness of the strip")
SIDES = Input("sides", "count", 1, 2, "count", default=1, says="faces of the member sealed")
PORTS = Input("ports", "count", 0, 10_000, "count", says="ports with a collar")
OUTER = Input("outer_diameter_mm", "mm", 1, 300, says="across the collar")
INNER = Input("inner_diameter_mm", "mm", 0, 300, says="across the port's foot; less than outer")
HEIGHT = Input("height_mm", "mm", 0, 100, says="of the collar above the seal")
STRIP = Input("strip_ml", "ml", 0, 1_000_000, says="paste in the strip")
COLLARS = Input("collars_ml", "ml", 0, 1_000_000, default=0, says="paste in the collars")
SEAL_WASTE = Input("waste", "", 0, 2, default=0, says="allowance as a share of the paste placed")


@dataclass(frozen=True, slots=True)
class SealNeeded:
    """Mixed paste to have ready and its two equal parts; mL."""

    strip_ml: float
    collars_ml: float
    waste_ml: float
    total_ml: float
    a_ml: float
    b_ml: float


def seal_volume(length_mm: float, width_mm: float, thickness_mm: float, sides: int = 1) -> float:
    """Paste in the strip over a crack.

    Inputs:
        length_mm: along the crack, mm
        width_mm: width of the strip, mm
        thickness_mm: thickness of the strip, mm
        sides: faces of the member that are sealed, count
    Result:
        volume_ml: mL
    Errors: OutOfRange
    Source: seal-volume-geometry
    Example:
        >>> seal_volume(3000, 30, 2)
        180.0
    """
    LENGTH.check(length_mm)
    SEAL_WIDTH.check(width_mm)
    SEAL_THICKNESS.check(thickness_mm)
    SIDES.check(sides)
    return length_mm * width_mm * thickness_mm * sides / 1000


def collar_volume(
    ports: int, outer_diameter_mm: float, inner_diameter_mm: float, height_mm: float
) -> float:
    """Paste in the collars around the ports' feet, each a flat ring.

    Inputs:
        ports: count
        outer_diameter_mm: across the collar, mm
        inner_diameter_mm: across the port's foot, mm; less than outer_diameter_mm
        height_mm: of the collar above the seal, mm
    Result:
        volume_ml: mL
    Errors: OutOfRange
    Source: seal-volume-geometry, seal-collar
    Example:
        >>> round(collar_volume(10, 40, 20, 5), 1)
        47.1
    """
    PORTS.check(ports)
    OUTER.check(outer_diameter_mm)
    INNER.check(inner_diameter_mm)
    HEIGHT.check(height_mm)
    if inner_diameter_mm >= outer_diameter_mm:
        raise OutOfRange("inner_diameter_mm", inner_diameter_mm, 0, outer_diameter_mm, "mm")
    ring = outer_diameter_mm**2 - inner_diameter_mm**2
    return ports * math.pi / 4 * ring * height_mm / 1000


def seal_needed(strip_ml: float, collars_ml: float = 0, waste: float = 0) -> SealNeeded:
    """Paste to mix for strip and collars, with the two equal parts to measure out.

    Inputs:
        strip_ml: paste in the strip, mL
        collars_ml: paste in the collars, mL
        waste: allowance as a share of the paste placed
    Result:
        seal: SealNeeded(strip_ml, collars_ml, waste_ml, total_ml, a_ml, b_ml), mL
    Errors: OutOfRange
    Source: seal-volume-geometry, seal-one-to-one, waste-allowance
    Example:
        >>> seal_needed(180, 20, waste=0.5).total_ml
        300.0
    """
    STRIP.check(strip_ml)
    COLLARS.check(collars_ml)
    SEAL_WASTE.check(waste)
    lost = (strip_ml + collars_ml) * waste
    total = strip_ml + collars_ml + lost
    return SealNeeded(strip_ml, collars_ml, lost, total, total / 2, total / 2)


def equal_parts(total_ml: float) -> Parts:
    """Share a paste measured in two equal parts.

    Inputs:
        total_ml: A and B together, mL
    Result:
        parts: Parts(a_ml, b_ml), mL
    Errors: OutOfRange
    Source: seal-one-to-one
    Example:
        >>> equal_parts(300)
        Parts(a_ml=150.0, b_ml=150.0)
    """
    TOTAL.check(total_ml)
    return Parts(total_ml / 2, total_ml / 2)


_ML = (Output("volume_ml", "ml"),)
_STRIP = (LENGTH, SEAL_WIDTH, SEAL_THICKNESS, SIDES)
_RING = (PORTS, OUTER, INNER, HEIGHT)
_NEEDED = tuple(
    Output(name, "ml")
    for name in ("strip_ml", "collars_ml", "waste_ml", "total_ml", "a_ml", "b_ml")
)
_PARTS = (Output("a_ml", "ml"), Output("b_ml", "ml"))
_PASTE = (STRIP, COLLARS, SEAL_WASTE)
_GEOMETRY = "seal-volume-geometry"
_PASTE_SOURCES = (_GEOMETRY, "seal-one-to-one", "waste-allowance")

CALCULATORS = (
    calculator(seal_volume, "Paste in the strip", _STRIP, _ML, (_GEOMETRY,)),
    calculator(collar_volume, "Paste in the collars", _RING, _ML, (_GEOMETRY, "seal-collar")),
    calculator(seal_needed, "Paste to mix", _PASTE, _NEEDED, _PASTE_SOURCES),
    calculator(equal_parts, "Two equal parts", (TOTAL,), _PARTS, ("seal-one-to-one",)),
)
