"""Resin that never reaches the crack: left in mixer and tube, or caught for samples."""

import math

from app.trade.calculator import Input, Output, calculator

MIXER_DIAMETER = Input("mixer_diameter_mm", "mm", 1, 100, says="bore of the mixer")
MIXER_LENGTH = Input("mixer_length_mm", "mm", 1, 2000)
MIXER_OPEN = Input(
    "mixer_open", "", 0.05, 1, default=1, says="share of the bore the elements leave open"
)
TUBE_DIAMETER = Input("tube_diameter_mm", "mm", 0.5, 50, says="bore of the tube to the port")
TUBE_LENGTH = Input("tube_length_mm", "mm", 0, 50_000)
TIMES_USED = Input("mixers", "count", 1, 100, "count", default=1, says="mixers used up")

RATIO_TESTS = Input("ratio_tests", "count", 0, 100, "count")
PER_TEST = Input("per_test_ml", "ml", 0, 5000, says="both sides of one ratio test together")
PHYSICAL = Input("physical_samples", "count", 0, 100, "count")
PER_SAMPLE = Input("per_sample_ml", "ml", 0, 5000)


def hold_up(
    mixer_diameter_mm: float,
    mixer_length_mm: float,
    tube_diameter_mm: float,
    tube_length_mm: float,
    mixer_open: float = 1,
    mixers: int = 1,
) -> float:
    """Mixed resin that stays in mixer and tube and is thrown away with them.

    Inputs:
        mixer_diameter_mm: bore of the mixer, mm
        mixer_length_mm: mm
        tube_diameter_mm: bore of the tube from mixer to port, mm
        tube_length_mm: mm
        mixer_open: share of the bore that the elements leave open; 1 counts the whole bore
        mixers: how many sets of mixer and tube are used up, count
    Result:
        hold_up_ml: mL
    Errors: OutOfRange
    Source: hold-up
    Example:
        >>> round(hold_up(10, 200, 6, 1000), 1)
        44.0
    """
    MIXER_DIAMETER.check(mixer_diameter_mm)
    MIXER_LENGTH.check(mixer_length_mm)
    TUBE_DIAMETER.check(tube_diameter_mm)
    TUBE_LENGTH.check(tube_length_mm)
    MIXER_OPEN.check(mixer_open)
    TIMES_USED.check(mixers)
    mixer = mixer_diameter_mm**2 * mixer_length_mm * mixer_open
    return mixers * math.pi / 4 * (mixer + tube_diameter_mm**2 * tube_length_mm) / 1000


def samples_volume(
    ratio_tests: int, per_test_ml: float, physical_samples: int, per_sample_ml: float
) -> float:
    """Material caught for the ratio tests and for the samples kept to cure.

    Inputs:
        ratio_tests: count
        per_test_ml: both sides of one test together, mL
        physical_samples: count
        per_sample_ml: mL
    Result:
        samples_ml: mL
    Errors: OutOfRange
    Source: ratio-tolerance, physical-sample
    Example:
        >>> samples_volume(2, 150, 1, 50)
        350
    """
    RATIO_TESTS.check(ratio_tests)
    PER_TEST.check(per_test_ml)
    PHYSICAL.check(physical_samples)
    PER_SAMPLE.check(per_sample_ml)
    return ratio_tests * per_test_ml + physical_samples * per_sample_ml


_HELD = (MIXER_DIAMETER, MIXER_LENGTH, TUBE_DIAMETER, TUBE_LENGTH, MIXER_OPEN, TIMES_USED)
_CAUGHT = (RATIO_TESTS, PER_TEST, PHYSICAL, PER_SAMPLE)
_HELD_OUT = (Output("hold_up_ml", "ml"),)
_CAUGHT_OUT = (Output("samples_ml", "ml"),)
_CAUGHT_SOURCES = ("ratio-tolerance", "physical-sample")

CALCULATORS = (
    calculator(hold_up, "Left in mixer and tube", _HELD, _HELD_OUT, ("hold-up",)),
    calculator(samples_volume, "Caught for samples", _CAUGHT, _CAUGHT_OUT, _CAUGHT_SOURCES),
)
