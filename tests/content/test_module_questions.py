"""The quizzes: enough computed questions, and each slip is told from the key and the others."""

from fractions import Fraction

import pytest

from app.curriculum.loading.content import load_curriculum
from app.curriculum.questions.items import ChoiceQuestion, ComputedQuestion
from app.curriculum.questions.marking import mark_choice, mark_computed
from app.curriculum.questions.variants import draw_variant, tolerance, variant_seed, working_values
from app.curriculum.questions.wording import asked, worked_solution
from app.settings import ROOT
from app.trade.registry import CALCULATORS
from app.trade.units import from_base

CURRICULUM = load_curriculum(ROOT / "content")
MODULES = CURRICULUM.modules
MODELS = [
    pytest.param(question, id=f"{module.id}/{question.id}")
    for module in MODULES.values()
    for question in module.questions
    if isinstance(question, ComputedQuestion)
]
CHOICES = [
    pytest.param(question, id=f"{module.id}/{question.id}")
    for module in MODULES.values()
    for question in module.questions
    if isinstance(question, ChoiceQuestion)
]
COMPUTING = (
    "port-setting", "seal-mixing", "pump-purge", "ratio-sample", "injection-order", "shutdown",
)  # fmt: skip


def typed(value: Fraction, question: ComputedQuestion) -> str:
    """The value as a person types it: in the answer's unit, to a hundredth of the tolerance."""
    number = from_base(value, question.answer.unit)
    return f"{float(number):.6f}"


@pytest.mark.parametrize("module", MODULES)
def test_a_module_asks_at_least_five_questions_and_one_that_must_be_known(module):
    questions = MODULES[module].questions
    assert len(questions) >= 5
    assert any(question.must_know for question in questions)


@pytest.mark.parametrize("module", COMPUTING)
def test_a_module_about_numbers_has_at_least_three_item_models(module):
    models = [one for one in MODULES[module].questions if isinstance(one, ComputedQuestion)]
    assert len(models) >= 3


@pytest.mark.parametrize("question", MODELS)
def test_two_hundred_variants_are_marked_right_and_every_slip_is_diagnosed(question):
    for number in range(200):
        seed = variant_seed(f"test-{number}", question.id, question.version)
        variant = draw_variant(question, seed, CALCULATORS)
        assert mark_computed(question, variant, typed(variant.key, question)).is_right
        for slip_id, value in variant.slips.items():
            if value < 0:
                continue  # nobody can type it: below zero is asked back
            if question.answer.quantity == "count" and value.denominator != 1:
                continue  # asked back as no whole number
            marked = mark_computed(question, variant, typed(value, question))
            assert (marked.diagnosis, marked.slip_id) == ("slip", slip_id), (number, value)


@pytest.mark.parametrize("question", MODELS)
def test_the_tolerance_ends_where_it_says(question):
    variant = draw_variant(question, variant_seed("edge", question.id, 1), CALCULATORS)
    allowed = tolerance(question.answer, variant.key)
    step = allowed / 1000 if allowed else Fraction(1)
    for side in (-1, 1):
        inside = variant.key + side * (allowed - step if allowed else 0)
        outside = variant.key + side * (allowed + step)
        assert mark_computed(question, variant, typed(inside, question)).is_right
        if outside >= 0:
            assert not mark_computed(question, variant, typed(outside, question)).is_right


@pytest.mark.parametrize("question", MODELS)
def test_question_and_solution_are_whole_sentences_without_a_place_left_open(question):
    variant = draw_variant(question, variant_seed("words", question.id, 1), CALCULATORS)
    working = working_values(question, variant, CALCULATORS)
    texts = [asked(question, variant, "en")]
    texts += [worked_solution(question, variant, working, "en", s) for s in ("metric", "us")]
    for text in texts:
        assert "{" not in text
        assert "}" not in text
        assert any(character.isdigit() for character in text)


@pytest.mark.parametrize("question", CHOICES)
def test_exactly_one_option_is_right_and_the_others_say_why_not(question):
    right = [option for option in question.options if mark_choice(question, option.id).is_right]
    assert len(right) == 1
    assert all(option.feedback for option in question.options if option not in right)


@pytest.mark.parametrize("question", [*MODELS, *CHOICES])
def test_every_number_asked_has_a_source(question):
    if question.source is not None:
        assert question.source in CURRICULUM.sources
    else:
        said = [question.text, question.explanation, *(one.text for one in question.options)]
        assert not any(c.isdigit() for text in said for c in text.in_language("en"))
