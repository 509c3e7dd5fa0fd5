"""What questions.yaml must hold, and how it is told when it does not."""

import pytest


@pytest.mark.parametrize(
    ("old", "new", "key", "said"),
    [
        ("kind: choice", "kind: guess", "questions.0.kind", "must be choice or computed"),
        ("right: true", "right: false", "questions.0", "exactly one option must be right, 0 are"),
        ("- {id: b,", "- {id: a,", "questions.0", "two options have the same id"),
        ("- {id: b,", "- {id: b, right: true,", "questions.0", "must be right, 2 are"),
        (", feedback: {en: It is not that one}", "", "questions.0", "needs its feedback"),
        ("id: choice-b", "id: choice-a", "questions.1.id", "stands twice"),
        ("{en: Which one}", "{es: Cual}", "questions.0.text", "English words (en) are"),
        ("version: 1", "version: one", "questions.0.version", "integer"),
        ("version: 1", "version: 1\n    colour: red", "questions.0.colour", "not a known key"),
        ("{en: Which one}", "{en: Which 1}", "questions.0.source", "the question holds a number"),
        ("unit: ft", "unit: cubit", "variables.length.unit", "there is no unit cubit"),
        ("from: 6, to: 20, step: 1", "from: 6", "variables.length", "from, to and step"),
        ("quantity: volume", "quantity: heat", "answer.quantity", "no quantity heat"),
        ("unit: floz", "unit: lb", "unit", "lb is no unit of"),
        ("resin_needed(length_mm=length,", "resin_needed(", "answer.key", "needs length_mm"),
        ("resin_needed(", "resin_guess(", "answer.key", "there is no calculator resin_guess"),
        (".total_ml", ".sum_ml", "answer.key", "resin_needed gives no sum_ml"),
        ("depth_mm=depth / 2", "depth_mm=deep / 2", "slips.1.formula", "no variable deep"),
        ("Add {waste}", "Add some", "text.en", "does not say {waste}"),
        ("Add {waste}", "Add {waste} to {this}", "text.en", "there is no value {this}"),
        ("Net {net}", "Net {nett}", "solution.en", "there is no value {nett}"),
        ("more {key}", "more", "solution.en", "does not say {key}"),
        ("source: a-source", "source: nobody", "source", "there is no source nobody"),
        ("relative: \"0.02\"", "relative: \"0\"", "answer", "tolerance above 0"),
        ("working_quantities: {net:", "working_quantities: {nil:", "nil", "no quantity"),
    ],
)  # fmt: skip
def test_a_wrong_question_is_named_with_its_key(small, old, new, key, said):
    found = small.change("questions.yaml", old, new).problem()
    assert found.startswith("questions.yaml:")
    assert key in found.split(": ")[1]
    assert said in found


def test_the_line_is_the_line_of_the_key(small):
    text = (small.module / "questions.yaml").read_text()
    wanted = text[: text.index("- id: resin-for-crack")].count("\n") + 1
    found = small.change("questions.yaml", "source: a-source", "source: nobody").problem()
    line = text[: text.index("source: a-source")].count("\n") + 1
    assert found.startswith(f"questions.yaml:{line}: questions.4.source")
    assert wanted < line


def test_a_key_without_a_calculator_is_refused(small):
    key = "resin_needed(length_mm=length, depth_mm=depth, width_mm=width, waste=waste).total_ml"
    small.change("questions.yaml", key, "length * depth * width / 1000 * (1 + waste)")
    assert "the key must call a calculator" in small.problem()


def test_slips_that_cannot_be_told_from_the_key_are_refused(small):
    small.change("questions.yaml", "choices: [15, 20]}", "choices: [1]}")
    found = small.problem()
    assert "no numbers that can be used in 500 draws" in found
    assert "lie too close together" in found


def test_numbers_outside_a_calculators_bounds_are_refused_with_its_sentence(small):
    small.change("questions.yaml", "choices: [15, 20, 25]", "choices: [-15]")
    assert "width_mm is -0.381" in small.problem()


def test_too_few_different_variants_are_refused(small):
    small.change("questions.yaml", "from: 6, to: 20, step: 1", "from: 6, to: 6, step: 1")
    small.change("questions.yaml", "choices: [6, 8, 10, 12]", "choices: [6]")
    small.change("questions.yaml", "choices: [15, 20, 25]", "choices: [15]")
    assert "only 2 different variants in 20" in small.problem()


def test_four_questions_are_too_few(small):
    path = small.module / "questions.yaml"
    path.write_text(path.read_text().split("  - id: resin-for-crack")[0])
    assert "at least 5 are wanted, 4 are here" in small.problem()


def test_a_file_that_is_no_yaml_is_named_with_its_line(small):
    small.change("questions.yaml", "    kind: choice", "   kind: choice")
    assert small.problem().startswith("questions.yaml:4: file: not readable as YAML")
