"""Two components: sharing out a total by volume and by mass, and hand-mixed batches."""

import math
from dataclasses import dataclass

from app.trade.calculator import Input, Output, calculator

TOTAL = Input("total_ml", "ml", 0, 1_000_000, says="A and B together")
TOTAL_MASS = Input("total_g", "g", 0, 1_000_000, says="A and B together")
PARTS_A = Input("parts_a", "parts", 0.01, 1000, says="parts of A, from the product data sheet")
PARTS_B = Input("parts_b", "parts", 0.01, 1000, says="parts of B, from the product data sheet")
DENSITY_A = Input("density_a_g_per_ml", "g_per_ml", 0.5, 5, says="from the product data sheet")
DENSITY_B = Input("density_b_g_per_ml", "g_per_ml", 0.5, 5, says="from the product data sheet")
LIMIT = Input("limit_ml", "ml", 0.1, 1_000_000, says="most that can be placed before it gels")


@dataclass(frozen=True, slots=True)
class Parts:
    """A total shared between the two components; mL."""

    a_ml: float
    b_ml: float


@dataclass(frozen=True, slots=True)
class MassParts:
    """The two components to weigh out, and their sum; g."""

    a_g: float
    b_g: float
    total_g: float


@dataclass(frozen=True, slots=True)
class Batches:
    """Hand-mixed batches of one size, none over the limit; mL."""

    count: int
    each_ml: float
    total_ml: float


def split_by_volume(total_ml: float, parts_a: float, parts_b: float) -> Parts:
    """Share a total between A and B by parts of volume.

    Inputs:
        total_ml: A and B together, mL
        parts_a: parts of A by volume
        parts_b: parts of B by volume
    Result:
        parts: Parts(a_ml, b_ml), mL
    Errors: OutOfRange
    Source: parts-by-volume
    Example:
        >>> split_by_volume(600, 2, 1)
        Parts(a_ml=400.0, b_ml=200.0)
    """
    TOTAL.check(total_ml)
    PARTS_A.check(parts_a)
    PARTS_B.check(parts_b)
    a_ml = total_ml * parts_a / (parts_a + parts_b)
    return Parts(a_ml, total_ml - a_ml)


def split_by_mass(total_g: float, parts_a: float, parts_b: float) -> MassParts:
    """Share a mass between A and B when the data sheet gives the parts by mass.

    Inputs:
        total_g: A and B together, g
        parts_a: parts of A by mass
        parts_b: parts of B by mass
    Result:
        parts: MassParts(a_g, b_g, total_g), g
    Errors: OutOfRange
    Source: parts-by-volume
    Example:
        >>> split_by_mass(300, 2, 1)
        MassParts(a_g=200.0, b_g=100.0, total_g=300)
    """
    TOTAL_MASS.check(total_g)
    PARTS_A.check(parts_a)
    PARTS_B.check(parts_b)
    a_g = total_g * parts_a / (parts_a + parts_b)
    return MassParts(a_g, total_g - a_g, total_g)


def weigh_out(
    total_ml: float,
    parts_a: float,
    parts_b: float,
    density_a_g_per_ml: float,
    density_b_g_per_ml: float,
) -> MassParts:
    """What to weigh of A and B for a volume, when the parts are by volume.

    Inputs:
        total_ml: A and B together, mL
        parts_a: parts of A by volume
        parts_b: parts of B by volume
        density_a_g_per_ml: g/mL
        density_b_g_per_ml: g/mL
    Result:
        parts: MassParts(a_g, b_g, total_g), g
    Errors: OutOfRange
    Source: mass-ratio, parts-by-volume
    Example:
        >>> weigh_out(300, 2, 1, 1.5, 1.0)
        MassParts(a_g=300.0, b_g=100.0, total_g=400.0)
    """
    DENSITY_A.check(density_a_g_per_ml)
    DENSITY_B.check(density_b_g_per_ml)
    parts = split_by_volume(total_ml, parts_a, parts_b)
    a_g, b_g = parts.a_ml * density_a_g_per_ml, parts.b_ml * density_b_g_per_ml
    return MassParts(a_g, b_g, a_g + b_g)


def mass_ratio(
    parts_a: float, parts_b: float, density_a_g_per_ml: float, density_b_g_per_ml: float
) -> float:
    """Ratio by mass, as so many of A to one of B, for a ratio given by volume.

    Inputs:
        parts_a: parts of A by volume
        parts_b: parts of B by volume
        density_a_g_per_ml: g/mL
        density_b_g_per_ml: g/mL
    Result:
        ratio: A to 1 of B, by mass
    Errors: OutOfRange
    Source: mass-ratio
    Example:
        >>> round(mass_ratio(2, 1, 1.15, 0.98), 3)
        2.347
    """
    PARTS_A.check(parts_a)
    PARTS_B.check(parts_b)
    DENSITY_A.check(density_a_g_per_ml)
    DENSITY_B.check(density_b_g_per_ml)
    return parts_a * density_a_g_per_ml / (parts_b * density_b_g_per_ml)


def hand_batches(total_ml: float, limit_ml: float) -> Batches:
    """Fewest equal batches of at most the limit: what can be placed before gel begins.

    The limit comes from pot life and placing rate (`batch_limit`).

    Inputs:
        total_ml: mixed resin in all, mL
        limit_ml: most that one batch may hold, mL
    Result:
        batches: Batches(count, each_ml, total_ml), mL
    Errors: OutOfRange
    Source: batch-before-gel
    Example:
        >>> hand_batches(1000, 300)
        Batches(count=4, each_ml=250.0, total_ml=1000)
    """
    TOTAL.check(total_ml)
    LIMIT.check(limit_ml)
    count = math.ceil(float(total_ml / limit_ml) - 1e-9)
    return Batches(count, total_ml / count if count else 0.0, total_ml)


_VOLUME_PARTS = (Output("a_ml", "ml"), Output("b_ml", "ml"))
_MASS_PARTS = (Output("a_g", "g"), Output("b_g", "g"), Output("total_g", "g"))
_BATCHES = (Output("count", "count"), Output("each_ml", "ml"), Output("total_ml", "ml"))
_RATIO = (PARTS_A, PARTS_B)
_DENSITIES = (DENSITY_A, DENSITY_B)
_PARTS = ("parts-by-volume",)
_MASS = (Output("ratio", "parts"),)
_WEIGH = ("mass-ratio", "parts-by-volume")

CALCULATORS = (
    calculator(split_by_volume, "A and B by volume", (TOTAL, *_RATIO), _VOLUME_PARTS, _PARTS),
    calculator(split_by_mass, "A and B by mass", (TOTAL_MASS, *_RATIO), _MASS_PARTS, _PARTS),
    calculator(weigh_out, "A and B to weigh", (TOTAL, *_RATIO, *_DENSITIES), _MASS_PARTS, _WEIGH),
    calculator(mass_ratio, "Ratio by mass", (*_RATIO, *_DENSITIES), _MASS, ("mass-ratio",)),
    calculator(hand_batches, "Batches", (TOTAL, LIMIT), _BATCHES, ("batch-before-gel",)),
)
