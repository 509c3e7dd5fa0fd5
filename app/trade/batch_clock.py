"""One batch of mixed resin: its clock, its largest size, and the warning about large batches."""

from dataclasses import dataclass

from app.trade.calculator import Calculator, Input, Output, calculator
from app.trade.conditions import limits_outputs
from app.trade.limits import Limits

POT_LIFE = Input("pot_life_min", "min", 0.1, 10_000, says="at the resin's temperature")
ELAPSED = Input("elapsed_min", "min", 0, 10_000, says="since A and B first met")
ELAPSED_YET = Input("elapsed_min", "min", 0, 10_000, default=0, says="since A and B first met")
MIXED_AT = Input("mixed_at_min", "min", 0, 1440, says="clock time as minutes after midnight")
RESERVE = Input("reserve", "", 0, 0.9, default=0, says="share of the pot life kept back")
PLACING = Input("placing_ml_per_min", "ml_per_min", 0.1, 10_000, says="how fast the crew places it")

BATCH = Input("batch_ml", "ml", 1, 200_000, says="to be mixed at once")
TESTED = Input("tested_ml", "ml", 1, 200_000, says="size of the data sheet's pot-life test")


@dataclass(frozen=True, slots=True)
class BatchClock:
    """When a batch must be out of the pot."""

    usable_min: float  # from mixing to the limit
    out_by_min: float  # clock time, minutes after midnight; over 1440 is past the next midnight
    left_min: float  # below zero: overdue by that much
    is_within: bool  # the limit has not passed


@dataclass(frozen=True, slots=True)
class BatchSize:
    """How a batch compares with the one the data sheet's pot life was measured on."""

    batch_ml: float
    tested_ml: float
    verdict: str  # not-larger | larger-gels-sooner
    is_within: bool  # not larger than tested


def minutes_left(pot_life_min: float, elapsed_min: float) -> float:
    """What is left of a pot life; below zero it is overdue by that much.

    Inputs:
        pot_life_min: at the resin's temperature, min
        elapsed_min: since A and B first met, min
    Result:
        minutes: min
    Errors: OutOfRange outside the bounds of its inputs.
    Source: batch-before-gel
    Example:
        >>> minutes_left(30, 34)
        -4.0
    """
    return float(POT_LIFE.check(pot_life_min) - ELAPSED.check(elapsed_min))


def pot_life_check(elapsed_min: float, pot_life_min: float) -> Limits:
    """Was the batch out before its pot life ended?

    Inputs:
        elapsed_min: since A and B first met, min
        pot_life_min: at the resin's temperature, min
    Result: Limits in minutes with an upper limit only.
    Errors: OutOfRange outside the bounds of its inputs.
    Source: batch-before-gel
    Example:
        >>> pot_life_check(34, 30).is_within
        False
    """
    return Limits(ELAPSED.check(elapsed_min), None, POT_LIFE.check(pot_life_min), "min")


def batch_clock(
    mixed_at_min: float, pot_life_min: float, elapsed_min: float = 0, reserve: float = 0
) -> BatchClock:
    """The clock of one batch: how long it is usable, when it must be out, what is left.

    Inputs:
        mixed_at_min: clock time at which A and B first met, minutes after midnight
        pot_life_min: at the resin's temperature, min; the short end of the band is the safe one
        elapsed_min: since A and B first met, min
        reserve: share of the pot life kept back, 0 to 0.9
    Result:
        usable_min: pot life less the reserve, min
        out_by_min: clock time by which the batch must be out, minutes after midnight; 1440 or more
            is past the next midnight
        left_min: min; below zero it is overdue
        is_within: left_min is not below zero
    Errors: OutOfRange outside the bounds of its inputs.
    Source: batch-before-gel
    Example:
        >>> batch_clock(9 * 60, 30, elapsed_min=10).out_by_min / 60
        9.5
    """
    MIXED_AT.check(mixed_at_min)
    usable = POT_LIFE.check(pot_life_min) * (1 - RESERVE.check(reserve))
    left = usable - ELAPSED.check(elapsed_min)
    return BatchClock(usable, mixed_at_min + usable, left, is_within=left >= 0)


def batch_limit(pot_life_min: float, placing_ml_per_min: float, reserve: float = 0) -> float:
    """The largest batch that can be placed before its pot life ends.

    Inputs:
        pot_life_min: at the resin's temperature, min
        placing_ml_per_min: how fast the crew places it, mL/min
        reserve: share of the pot life kept back, 0 to 0.9
    Result:
        volume_ml: mL
    Errors: OutOfRange outside the bounds of its inputs.
    Source: batch-before-gel
    Example:
        >>> batch_limit(30, 50, reserve=0.2)
        1200.0
    """
    POT_LIFE.check(pot_life_min)
    PLACING.check(placing_ml_per_min)
    return float(pot_life_min * placing_ml_per_min * (1 - RESERVE.check(reserve)))


def batch_size_warning(batch_ml: float, tested_ml: float) -> BatchSize:
    """Warn when a batch is larger than the one its pot life was measured on.

    A larger batch heats itself and gels sooner. By how much is not published for resins in
    general, so no number is given: ask the maker or test that size.

    Inputs:
        batch_ml: to be mixed at once, mL
        tested_ml: size of the data sheet's pot-life test, mL
    Result:
        batch_ml: as given, mL
        tested_ml: as given, mL
        verdict: not-larger, or larger-gels-sooner
        is_within: not larger than tested
    Errors: OutOfRange outside the bounds of its inputs.
    Source: batch-heats-itself
    Example:
        >>> batch_size_warning(2000, 200).verdict
        'larger-gels-sooner'
    """
    is_within = BATCH.check(batch_ml) <= TESTED.check(tested_ml)
    verdict = "not-larger" if is_within else "larger-gels-sooner"
    return BatchSize(batch_ml, tested_ml, verdict, is_within)


CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        minutes_left,
        "What is left of a pot life",
        (POT_LIFE, ELAPSED),
        (Output("minutes", "min"),),
        ("batch-before-gel",),
    ),
    calculator(
        pot_life_check,
        "Was the batch out in time",
        (ELAPSED, POT_LIFE),
        limits_outputs("min"),
        ("batch-before-gel",),
    ),
    calculator(
        batch_clock,
        "When a batch must be out",
        (MIXED_AT, POT_LIFE, ELAPSED_YET, RESERVE),
        (
            Output("usable_min", "min"),
            Output("out_by_min", "min"),
            Output("left_min", "min"),
            Output("is_within", ""),
        ),
        ("batch-before-gel",),
    ),
    calculator(
        batch_limit,
        "Largest batch for the pot life",
        (POT_LIFE, PLACING, RESERVE),
        (Output("volume_ml", "ml"),),
        ("batch-before-gel",),
    ),
    calculator(
        batch_size_warning,
        "Is the batch larger than tested",
        (BATCH, TESTED),
        (
            Output("batch_ml", "ml"),
            Output("tested_ml", "ml"),
            Output("verdict", ""),
            Output("is_within", ""),
        ),
        ("batch-heats-itself",),
    ),
)
