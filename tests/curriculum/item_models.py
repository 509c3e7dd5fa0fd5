"""Item models the tests draw from."""

from fractions import Fraction

from app.curriculum.questions.items import ChoiceQuestion, ComputedQuestion

RESIN = ComputedQuestion.model_validate(
    {
        "id": "resin-for-crack",
        "kind": "computed",
        "version": 1,
        "text": {"en": "{length} long, {depth} deep, {width} wide, {waste} more."},
        "variables": {
            "length": {"unit": "ft", "from": 6, "to": 20, "step": 1},
            "depth": {"unit": "in", "choices": (6, 8, 10, 12)},
            "width": {"unit": "mil", "choices": (15, 20, 25)},
            "waste": {"unit": "%", "choices": (15, 20)},
        },
        "answer": {
            "quantity": "volume",
            "unit": "floz",
            "key": "resin_needed(length_mm=length, depth_mm=depth, width_mm=width, "
            "waste=waste).total_ml",
            "relative": "0.01",
        },
        "slips": (
            {
                "id": "no-waste",
                "formula": "crack_volume(length_mm=length, depth_mm=depth, width_mm=width)",
                "feedback": {"en": "You left out the waste."},
            },
            {
                "id": "cubic-inches",
                "formula": "crack_volume(length_mm=length, depth_mm=depth, width_mm=width)"
                " * (1 + waste) * 231 / 128",
                "feedback": {"en": "These are cubic inches."},
            },
            {
                # An imperial fluid ounce is 28.4130625 ml, a US one 29.5735295625 ml.
                "id": "imperial-ounces",
                "formula": "crack_volume(length_mm=length, depth_mm=depth, width_mm=width)"
                " * (1 + waste) * 29.5735295625 / 28.4130625",
                "feedback": {"en": "These are imperial ounces."},
            },
            {
                "id": "half-depth",
                "formula": "crack_volume(length_mm=length, depth_mm=depth / 2, width_mm=width)"
                " * (1 + waste)",
                "feedback": {"en": "You took half the depth."},
            },
        ),
        "solution": {"en": "{length} × {depth} × {width} = {net}; {waste} more: {key}."},
        "working": {"net": "crack_volume(length_mm=length, depth_mm=depth, width_mm=width)"},
        "working_quantities": {"net": "volume"},
        "source": "crack-volume-geometry",
    }
)


def resin_with(**variables: Fraction | int) -> ComputedQuestion:
    """The model with each variable fixed to one value in its own unit."""
    fixed = {
        name: RESIN.variables[name].model_copy(
            update={"choices": (Fraction(value),), "first": None, "last": None, "step": None}
        )
        for name, value in variables.items()
    }
    return RESIN.model_copy(update={"variables": {**RESIN.variables, **fixed}})


def choice(question_id: str, *, must_know: bool = False) -> ChoiceQuestion:
    """A question with four options, `a` right."""
    options = tuple(
        {"id": name, "right": name == "a", "text": {"en": name}, "feedback": {"en": "No."}}
        for name in "abcd"
    )
    return ChoiceQuestion.model_validate(
        {
            "id": question_id,
            "kind": "choice",
            "version": 1,
            "must_know": must_know,
            "text": {"en": "Which one?"},
            "options": options,
            "explanation": {"en": "It is."},
        }
    )
