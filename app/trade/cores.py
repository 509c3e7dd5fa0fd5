"""Cores: how many to drill, and what the ones that were drilled prove.

What counts as a filled core, how many to drill and what a failure leads to are settings of the
project, with a citation. Here is only the arithmetic of an exact binomial sample.
"""

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from app.trade.calculator import Calculator, Input, Output, calculator
from app.trade.conditions import limits_outputs
from app.trade.errors import OutOfRange
from app.trade.limits import Limits

CONFIDENCE = Input("confidence", "", 0.5, 0.999, says="0.90 for 90 %")
SHARE = Input("share", "", 0.5, 0.999, says="least share of the crack that is to be filled")
FILLED = Input("filled", "count", 0, 10_000, kind="count", says="cores that count as filled")
CORES = Input("cores", "count", 1, 10_000, kind="count", says="cores drilled and judged")
ENOUGH_CORES = Input("cores", "count", 3, 10_000, kind="count", says="cores drilled and judged")
FILLED_SHARE = Input("filled_share", "", 0, 1, says="of the crack's depth in one core")
LEAST = Input("least", "", 0, 1, default=0.9, says="least share that counts as filled")

# Below this many, a bound says so little that only the counts are shown.
FEWEST_CORES: Final = 3


@dataclass(frozen=True, slots=True)
class CoresProof:
    """What a set of cores shows about the whole crack."""

    filled: int
    cores: int
    lower_bound: float | None  # None: too few cores for a bound
    verdict: str  # counts-only | shown | not-shown
    is_within: bool  # shown


def cores_needed(confidence: float, share: float) -> int:
    """How many cores, all of them filled, show a filled share at a confidence.

    The smallest n with share^n at or below 1 − confidence, in exact arithmetic.

    Inputs:
        confidence: 0.5 to 0.999
        share: least share of the crack that is to be filled, 0.5 to 0.999
    Result:
        count: cores
    Errors: OutOfRange outside the bounds of its inputs.
    Source: cores-zero-failures
    Example:
        >>> cores_needed(0.90, 0.90)
        22
    """
    chance = 1 - _exactly(CONFIDENCE.check(confidence))
    filled = _exactly(SHARE.check(share))
    count = math.ceil(math.log(chance) / math.log(filled))
    # The logarithms are rounded: one core fewer may do exactly.
    return count - 1 if filled ** (count - 1) <= chance else count


def filled_lower_bound(filled: int, cores: int, confidence: float) -> float:
    """The exact lower bound (Clopper–Pearson, one-sided) of the filled share.

    Inputs:
        filled: cores that count as filled, count
        cores: cores drilled and judged, count; at least 3
        confidence: 0.5 to 0.999
    Result:
        share: plain number
    Errors: OutOfRange outside the bounds of its inputs, for fewer than 3 cores, and for more
        filled cores than cores.
    Source: cores-lower-bound
    Example:
        >>> round(filled_lower_bound(3, 3, 0.90), 4)
        0.4642
    """
    ENOUGH_CORES.check(cores)
    _check_filled(filled, cores)
    CONFIDENCE.check(confidence)
    if filled == 0:
        return 0.0
    from scipy.stats import beta  # half a second to load, and only cores need it

    return float(beta.ppf(1 - confidence, filled, cores - filled + 1))


def cores_proof(filled: int, cores: int, confidence: float, share: float) -> CoresProof:
    """What the cores prove: the lower bound against the share asked for.

    Fewer than 3 cores give counts only. "Shown" holds for cores drilled where chance put them; a
    core drilled where the crack looked best shows that place.

    Inputs:
        filled: cores that count as filled, count
        cores: cores drilled and judged, count
        confidence: 0.5 to 0.999
        share: least share of the crack that is to be filled, 0.5 to 0.999
    Result:
        filled: as given
        cores: as given
        lower_bound: of the filled share; None with fewer than 3 cores
        verdict: counts-only, shown or not-shown
        is_within: the verdict is shown
    Errors: OutOfRange outside the bounds of its inputs, and for more filled cores than cores.
    Source: cores-lower-bound, cores-zero-failures
    Example:
        >>> cores_proof(2, 2, 0.90, 0.90).verdict
        'counts-only'
    """
    CORES.check(cores)
    _check_filled(filled, cores)
    CONFIDENCE.check(confidence)
    SHARE.check(share)
    if cores < FEWEST_CORES:
        return CoresProof(filled, cores, None, "counts-only", is_within=False)
    bound = filled_lower_bound(filled, cores, confidence)
    # With every core filled the count decides, exactly; the bound is rounded.
    is_shown = cores >= cores_needed(confidence, share) if filled == cores else bound >= share
    return CoresProof(filled, cores, bound, "shown" if is_shown else "not-shown", is_shown)


def core_check(filled_share: float, least: float = 0.9) -> Limits:
    """One core against the share of the crack that has to be filled in it.

    Inputs:
        filled_share: of the crack's depth in the core, 0 to 1
        least: least share that counts as filled, 0 to 1; 0.9 is published, the project sets it
    Result: Limits as a share with a lower limit only.
    Errors: OutOfRange outside the bounds of its inputs.
    Source: cores-ninety-percent
    Example:
        >>> core_check(0.85).is_within
        False
    """
    return Limits(FILLED_SHARE.check(filled_share), LEAST.check(least), None, "")


def _exactly(value: float) -> Fraction:
    """The decimal number that was written, not its nearest binary one."""
    return Fraction(str(float(value)))


def _check_filled(filled: int, cores: int) -> None:
    if FILLED.check(filled) > cores:
        raise OutOfRange("filled", filled, 0, cores, "count")


_SHARE = (Output("share", ""),)
_PROOF = (
    *(Output("filled", "count"), Output("cores", "count"), Output("lower_bound", "")),
    *(Output("verdict", ""), Output("is_within", "")),
)

CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        cores_needed,
        "How many cores",
        (CONFIDENCE, SHARE),
        (Output("count", "count"),),
        ("cores-zero-failures",),
    ),
    calculator(
        filled_lower_bound,
        "Least filled share the cores show",
        (FILLED, ENOUGH_CORES, CONFIDENCE),
        _SHARE,
        ("cores-lower-bound",),
    ),
    calculator(
        cores_proof,
        "What the cores prove",
        (FILLED, CORES, CONFIDENCE, SHARE),
        _PROOF,
        ("cores-lower-bound", "cores-zero-failures"),
    ),
    calculator(
        core_check,
        "Is one core filled",
        (FILLED_SHARE, LEAST),
        limits_outputs(""),
        ("cores-ninety-percent",),
    ),
)
