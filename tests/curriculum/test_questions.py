"""Item models: the same seed gives the same numbers, and what cannot be told apart is not asked."""

import hashlib
from collections import Counter
from fractions import Fraction
from itertools import pairwise

import pytest
from item_models import RESIN, choice, resin_with

from app.curriculum.questions.variants import (
    NoVariant,
    draw_number,
    draw_variant,
    options_in_order,
    select_questions,
    tolerance,
    variant_seed,
    working_values,
)
from app.trade.registry import CALCULATORS

SEEDS = [variant_seed(f"attempt-{number}", RESIN.id, 1) for number in range(200)]


def test_the_worked_example_of_a_crack_twelve_feet_long():
    """Reference: assessment worked example (geometry): 12 ft × 8 in × 0.020 in, 15 % waste."""
    question = resin_with(length=12, depth=8, width=20, waste=15)
    variant = draw_variant(question, SEEDS[0], CALCULATORS)
    floz = Fraction(231 * 254**3, 128 * 10**6)  # ml: 231 in³ a gallon, 128 fl oz, 25.4 mm an inch
    said = {name: round(float(value / floz), 4) for name, value in variant.slips.items()}
    assert round(float(variant.key / floz), 4) == 14.6818
    assert said["no-waste"] == 12.7668
    assert said["half-depth"] == 7.3409
    assert said["cubic-inches"] == 26.4960
    assert said["imperial-ounces"] == 15.2814


def test_the_seed_is_sha256_of_attempt_item_and_version():
    """Reference: FIPS 180-4 as in hashlib; written out so that no change can slip in unseen."""
    wanted = hashlib.sha256(b"a\x1fresin-for-crack\x1f3").hexdigest()
    assert variant_seed("a", "resin-for-crack", 3) == wanted
    assert variant_seed("a", "resin-for-crack", 4) != wanted


def test_a_variant_can_be_rebuilt_at_an_audit():
    first = [draw_variant(RESIN, seed, CALCULATORS) for seed in SEEDS[:20]]
    again = [draw_variant(RESIN, seed, CALCULATORS) for seed in SEEDS[:20]]
    assert first == again
    numbers = dict(first[0].numbers)
    # Drawn once by hand from the digests; a change here means old attempts no longer replay.
    assert numbers == {
        name: _by_hand(name, first[0].draw) for name in ("length", "depth", "width", "waste")
    }


def _by_hand(name, draw):
    values = RESIN.variables[name].values()
    digest = hashlib.sha256(f"{SEEDS[0]}\x1f{draw}:{name}".encode()).hexdigest()
    return values[int(digest, 16) % len(values)]


def test_every_value_comes_up_and_none_too_often():
    lengths = Counter(draw_variant(RESIN, seed, CALCULATORS).numbers["length"] for seed in SEEDS)
    assert set(lengths) == set(range(6, 21))
    # 200 draws over 15 values: 13.3 each; a share as far off as 40 has odds below 1 in 10⁹.
    assert max(lengths.values()) < 40


def test_numbers_from_a_span_take_its_steps_and_both_ends():
    variable = RESIN.variables["length"].model_copy(
        update={"first": Fraction(1), "last": Fraction(2), "step": Fraction(1, 4)}
    )
    assert variable.values() == tuple(Fraction(n, 4) for n in (4, 5, 6, 7, 8))


def test_key_and_slips_lie_at_least_two_and_a_half_tolerances_apart():
    for seed in SEEDS:
        variant = draw_variant(RESIN, seed, CALCULATORS)
        values = sorted([variant.key, *variant.slips.values()])
        for low, high in pairwise(values):
            assert high - low >= Fraction(5, 2) * Fraction("0.01") * high


def test_a_draw_too_close_is_drawn_again_and_a_model_without_any_other_is_refused():
    close = resin_with(waste=2)  # 2 % more: closer than 2.5 tolerances of 1 %
    with pytest.raises(NoVariant, match="lie too close together"):
        draw_variant(close, SEEDS[0], CALCULATORS)
    waste = RESIN.variables["waste"].model_copy(update={"choices": (Fraction(2), Fraction(15))})
    mixed = RESIN.model_copy(update={"variables": {**RESIN.variables, "waste": waste}})
    drawn = [draw_variant(mixed, seed, CALCULATORS) for seed in SEEDS[:40]]
    assert {variant.numbers["waste"] for variant in drawn} == {15}
    assert max(variant.draw for variant in drawn) >= 1


def test_numbers_a_calculator_refuses_are_not_asked():
    with pytest.raises(NoVariant, match="width_mm is"):
        draw_variant(resin_with(width=-1), SEEDS[0], CALCULATORS)


def test_an_absolute_tolerance_is_in_the_unit_of_the_answer():
    answer = RESIN.answer.model_copy(update={"absolute": Fraction(1), "relative": Fraction(0)})
    assert float(tolerance(answer, Fraction(100))) == pytest.approx(29.5735, abs=1e-4)  # 1 fl oz
    degrees = answer.model_copy(update={"quantity": "temperature", "unit": "f"})
    assert tolerance(degrees, Fraction(20)) == Fraction(5, 9)  # a difference: no offset


def test_working_values_may_use_one_another():
    question = RESIN.model_copy(update={"working": {**RESIN.working, "twice": "net * 2"}})
    variant = draw_variant(question, SEEDS[0], CALCULATORS)
    working = working_values(question, variant, CALCULATORS)
    assert working["twice"] == 2 * working["net"] == 2 * variant.slips["no-waste"]


def test_the_right_option_has_no_place_of_its_own():
    question = choice("one")
    places = Counter(
        [option.id for option in options_in_order(question, seed)].index("a") for seed in SEEDS
    )
    assert set(places) == {0, 1, 2, 3}
    assert min(places.values()) > 25  # 50 expected; odds of fewer are below 1 in 10⁴
    assert sorted(option.id for option in options_in_order(question, SEEDS[0])) == list("abcd")


def test_a_quiz_asks_every_must_know_question_and_fills_up_with_others():
    questions = [choice(f"q{number}", must_know=number in (3, 7)) for number in range(12)]
    seen = Counter()
    for number in range(60):
        asked = select_questions(questions, f"attempt-{number}", 8)
        ids = [question.id for question in asked]
        assert len(set(ids)) == len(ids) == 8
        assert {"q3", "q7"} <= set(ids)
        assert asked == select_questions(questions, f"attempt-{number}", 8)
        seen.update(ids)
    assert len(seen) == 12


def test_a_module_with_fewer_questions_asks_them_all():
    questions = [choice(f"q{number}") for number in range(5)]
    assert len(select_questions(questions, "attempt", 8)) == 5
    with pytest.raises(ValueError, match="at least one question"):
        select_questions(questions, "attempt", 0)


def test_nothing_can_be_drawn_from_nothing():
    with pytest.raises(ValueError, match="nothing to draw from"):
        draw_number("seed", "x", 0)
