"""The ratio sample: is it within tolerance, which side is long, and does the pump drift?"""

from collections.abc import Sequence
from dataclasses import dataclass

from app.trade.calculator import Input, Output, calculator
from app.trade.errors import NotListed
from app.trade.mixing import DENSITY_A, DENSITY_B, PARTS_A, PARTS_B

CAUGHT_A = Input("measured_a_ml", "ml", 1, 10_000, says="side A caught")
CAUGHT_B = Input("measured_b_ml", "ml", 0, 10_000, says="side B caught")
WEIGHED_A = Input("measured_a_g", "g", 1, 20_000, says="side A caught")
WEIGHED_B = Input("measured_b_g", "g", 0, 20_000, says="side B caught")
SAMPLES_A = Input("samples_a_ml", "ml", 1, 10_000, "numbers", says="side A of each sample")
SAMPLES_B = Input("samples_b_ml", "ml", 0, 10_000, "numbers", says="side B of each sample")
TOLERANCE = Input(
    "tolerance", "", 0, 0.5, default=0.05, says="share of B's target; the data sheet comes first"
)

# What to do next, word by word; pages hold the sentences.
GO_ON = "go-on"
STOP = "stop-correct-repeat"

_ROUNDING = 1e-9  # a sample exactly on the limit passes, whatever the last binary digit says


@dataclass(frozen=True, slots=True)
class RatioCheck:
    """One ratio sample beside its limits.

    `deviation` is B's share above (+) or below (−) its target. `long_side` is the side there is
    too much of ("" when exactly on ratio), `long_by_ml` how much of it is over.
    """

    b_target_ml: float
    b_low_ml: float
    b_high_ml: float
    deviation: float
    is_within: bool
    long_side: str  # "A" | "B" | ""
    long_by_ml: float
    next_step: str  # go-on | stop-correct-repeat


@dataclass(frozen=True, slots=True)
class RatioDrift:
    """A day's samples in order: each deviation, how far they moved, and towards which side."""

    deviations: tuple[float, ...]
    change: float
    largest: float
    towards: str  # side growing long: "A" | "B" | "" when steady
    is_within: bool
    next_step: str  # go-on | stop-correct-repeat


def ratio_check(
    measured_a_ml: float,
    measured_b_ml: float,
    parts_a: float,
    parts_b: float,
    tolerance: float = 0.05,
) -> RatioCheck:
    """Compare a ratio sample caught by volume with the stated ratio.

    Inputs:
        measured_a_ml: side A caught, mL
        measured_b_ml: side B caught over the same strokes, mL
        parts_a: parts of A by volume
        parts_b: parts of B by volume
        tolerance: share of B's target either way
    Result:
        check: RatioCheck, mL and shares
    Errors: OutOfRange
    Source: ratio-tolerance
    Example:
        >>> ratio_check(100, 47.5, 2, 1).is_within, ratio_check(100, 47.4, 2, 1).is_within
        (True, False)
    """
    CAUGHT_A.check(measured_a_ml)
    CAUGHT_B.check(measured_b_ml)
    PARTS_A.check(parts_a)
    PARTS_B.check(parts_b)
    TOLERANCE.check(tolerance)
    target = measured_a_ml * parts_b / parts_a
    deviation = float((measured_b_ml - target) / target)
    within = abs(deviation) <= tolerance + _ROUNDING
    side = "" if abs(deviation) <= _ROUNDING else "B" if deviation > 0 else "A"
    over_b = measured_b_ml - target
    long_by = 0.0 if not side else over_b if side == "B" else -over_b * parts_a / parts_b
    low, high = target * (1 - tolerance), target * (1 + tolerance)
    step = GO_ON if within else STOP
    return RatioCheck(target, low, high, deviation, within, side, long_by, step)


def ratio_check_by_mass(
    measured_a_g: float,
    measured_b_g: float,
    parts_a: float,
    parts_b: float,
    density_a_g_per_ml: float,
    density_b_g_per_ml: float,
    tolerance: float = 0.05,
) -> RatioCheck:
    """Compare a ratio sample caught by weight with the stated ratio by volume.

    Inputs:
        measured_a_g: side A caught, g
        measured_b_g: side B caught over the same strokes, g
        parts_a: parts of A by volume
        parts_b: parts of B by volume
        density_a_g_per_ml: g/mL
        density_b_g_per_ml: g/mL
        tolerance: share of B's target either way
    Result:
        check: RatioCheck, in mL as worked out from the weights
    Errors: OutOfRange
    Source: ratio-tolerance, mass-ratio
    Example:
        >>> ratio_check_by_mass(115, 49, 2, 1, 1.15, 0.98).long_side
        ''
    """
    WEIGHED_A.check(measured_a_g)
    WEIGHED_B.check(measured_b_g)
    DENSITY_A.check(density_a_g_per_ml)
    DENSITY_B.check(density_b_g_per_ml)
    a_ml, b_ml = measured_a_g / density_a_g_per_ml, measured_b_g / density_b_g_per_ml
    return ratio_check(a_ml, b_ml, parts_a, parts_b, tolerance)


def ratio_drift(
    samples_a_ml: Sequence[float],
    samples_b_ml: Sequence[float],
    parts_a: float,
    parts_b: float,
    tolerance: float = 0.05,
) -> RatioDrift:
    """How the ratio moved over a day's samples, from the first to the last.

    A day is within when every sample is and when they did not move by more than the tolerance.

    Inputs:
        samples_a_ml: side A of each sample in order, mL
        samples_b_ml: side B of each sample, mL
        parts_a: parts of A by volume
        parts_b: parts of B by volume
        tolerance: share of B's target either way
    Result:
        drift: RatioDrift, shares
    Errors: OutOfRange; NotListed with fewer than two samples or lists of different length
    Source: ratio-tolerance, ratio-test-times
    Example:
        >>> ratio_drift([100, 100], [50, 52], 2, 1).towards
        'B'
    """
    SAMPLES_A.check_all(samples_a_ml, at_least=2)
    SAMPLES_B.check_all(samples_b_ml, at_least=2)
    if len(samples_a_ml) != len(samples_b_ml):
        raise NotListed("samples_b_ml", len(samples_b_ml), f"{len(samples_a_ml)} needed")
    pairs = zip(samples_a_ml, samples_b_ml, strict=True)
    checks = [ratio_check(a, b, parts_a, parts_b, tolerance) for a, b in pairs]
    deviations = tuple(check.deviation for check in checks)
    change = deviations[-1] - deviations[0]
    towards = "" if abs(change) <= _ROUNDING else "B" if change > 0 else "A"
    spread = max(deviations) - min(deviations)
    within = all(check.is_within for check in checks) and spread <= tolerance + _ROUNDING
    largest = max(deviations, key=abs)
    return RatioDrift(deviations, change, largest, towards, within, GO_ON if within else STOP)


_CHECK = (
    *(Output("b_target_ml", "ml"), Output("b_low_ml", "ml"), Output("b_high_ml", "ml")),
    *(Output("deviation", ""), Output("is_within", ""), Output("long_side", "")),
    *(Output("long_by_ml", "ml"), Output("next_step", "")),
)
_DRIFT = tuple(
    Output(name, "")
    for name in ("deviations", "change", "largest", "towards", "is_within", "next_step")
)
_RATIO = (PARTS_A, PARTS_B)
_BY_VOLUME = (CAUGHT_A, CAUGHT_B, *_RATIO, TOLERANCE)
_BY_MASS = (WEIGHED_A, WEIGHED_B, *_RATIO, DENSITY_A, DENSITY_B, TOLERANCE)
_OF_A_DAY = (SAMPLES_A, SAMPLES_B, *_RATIO, TOLERANCE)
_TOLERANCE = "ratio-tolerance"

CALCULATORS = (
    calculator(ratio_check, "Ratio sample by volume", _BY_VOLUME, _CHECK, (_TOLERANCE,)),
    calculator(
        ratio_check_by_mass,
        "Ratio sample by weight",
        _BY_MASS,
        _CHECK,
        (_TOLERANCE, "mass-ratio"),
    ),
    calculator(
        ratio_drift, "Drift over a day", _OF_A_DAY, _DRIFT, (_TOLERANCE, "ratio-test-times")
    ),
)
