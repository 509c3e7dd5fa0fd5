"""What the phone makes of a practice answer is what the server makes of it, for every question.

The vectors hold values worked out by hand (their source stands in the file); the second test takes
every computed question of the content with answers on both sides of each limit.
"""

import json
import os
import random
import shutil
import subprocess
from fractions import Fraction
from pathlib import Path

import pytest

from app.curriculum.model import Curriculum
from app.curriculum.questions.items import Answer, ComputedQuestion
from app.curriculum.questions.marking import diagnose, mark_computed
from app.curriculum.questions.variants import draw_variant, tolerance
from app.trade.lengths import Unreadable, read_quantity
from app.trade.registry import CALCULATORS
from app.trade.units import UNITS, from_base, unit_named
from app.web.scripts import sentences
from app.worker.asking import Asked
from app.worker.question_data import question_data

HERE = Path(__file__).resolve().parent
MARKS = json.loads((HERE.parent / "vectors" / "marks.json").read_text())


@pytest.mark.parametrize(("name", "typed", "diagnosis", "slip"), MARKS["marks"])
def test_the_server_marks_the_vectors_the_same(name, typed, diagnosis, slip):
    told = MARKS["questions"][name]
    factor = unit_named(told["unit"]).factor
    answer = Answer(
        quantity=told["quantity"],
        unit=told["unit"],
        key="",
        relative=Fraction(told["relative"]),
        absolute=Fraction(told["absolute"]) / factor,
    )
    slips = {name: Fraction(value) for name, (value, _words) in told["slips"].items()}
    value = read_quantity(typed, answer.quantity, answer.unit).value
    assert diagnose(answer, Fraction(told["key"]), slips, value) == (diagnosis, slip)


def on_the_phone(cases: list) -> list:
    path = shutil.which("node")
    if path is None:
        sentence = "No node on this machine: the phone's marking was not compared."
        pytest.fail(sentence) if os.environ.get("CI") == "true" else pytest.skip(sentence)
    done = subprocess.run(
        [path, str(HERE / "mark-all.mjs")], input=json.dumps(cases), capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def written(value: Fraction, places: int) -> str:
    """The number to so many places, cut off: one step more is beyond a limit it stands on."""
    return f"{float(value):.{places}f}"


def answers(question: ComputedQuestion, variant) -> list[str]:
    """Right and wrong answers, on both sides of every limit, in every unit of the quantity."""
    answer, unit = question.answer, question.answer.unit
    typed = []
    for target in (variant.key, *variant.slips.values()):
        width = tolerance(answer, target)
        for share in ("0", "0.999", "1.001", "-0.999", "-1.001", "3"):
            value = from_base(target + Fraction(share) * width, unit)
            typed.append(written(value, 9))
    for other in UNITS.values():
        if other.quantity == answer.quantity and other.sign:
            typed.append(f"{written(from_base(variant.key, other.name), 3)} {other.sign}")
    return typed


def test_every_question_is_marked_the_same(curriculum: Curriculum):
    cases, expected = [], []
    for module in curriculum.modules.values():
        for question in module.questions:
            if not isinstance(question, ComputedQuestion):
                continue
            variant = draw_variant(question, f"phone {question.id}", CALCULATORS)
            told = question_data(curriculum, Asked(1, question, variant.seed, variant), "en")
            for typed in answers(question, variant):
                cases.append([told, typed])
                expected.append(server_makes(question, variant, typed))
    assert len(cases) > 800
    for case, phone, server in zip(cases, on_the_phone(cases), expected, strict=True):
        assert phone == server, (case[0]["item"], case[1])


def server_makes(question: ComputedQuestion, variant, typed: str) -> list:
    try:
        marked = mark_computed(question, variant, typed)
    except Unreadable as refusal:
        return ["unreadable", refusal.template, ""]
    return [marked.diagnosis, marked.slip_id, marked.said]


PIECES = [*"0123456789", *" .,-/'\"½¼⅔′″–⁄", *"°e:%", " ft ", " in", " mm", " mil", "floz", " 1/2"]


def test_whatever_is_typed_is_read_the_same(curriculum: Curriculum):
    draw = random.Random(20260302)
    kinds = [("length", "in"), ("length", None), ("volume", "ml"), ("ratio", None), ("share", "%")]
    kinds += [("count", None), ("temperature", "f"), ("time", "min"), ("pressure", "psi")]
    cases, expected = [], []
    for _ in range(4000):
        quantity, unit = draw.choice(kinds)
        typed = "".join(draw.choices(PIECES, k=draw.randint(1, 9)))
        question = {"quantity": quantity, "unit": unit, "absolute": "0/1", "relative": "0/1"}
        cases.append([{**question, "key": "-1/7", "slips": {}}, typed])
        try:
            expected.append(["unknown", None, read_quantity(typed, quantity, unit).said])
        except Unreadable as refusal:
            expected.append(["unreadable", refusal.template, ""])
    read = sum(one[0] == "unknown" for one in expected)
    assert 200 < read < 3800
    for case, phone, server in zip(cases, on_the_phone(cases), expected, strict=True):
        assert phone == server, case


def test_every_question_of_an_unreadable_answer_can_be_said_in_spanish():
    said = set(sentences())
    for _text, quantity, unit, template in json.loads(
        (HERE.parent / "vectors" / "readings.json").read_text()
    )["refused"]:
        assert template in said, (quantity, unit)
