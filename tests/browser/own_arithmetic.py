"""Answers worked out from the words on the page, by this file's own arithmetic.

Nothing of app/trade is used here: the numbers are read out of the question as a person would read
them, and the sums are written down again. Choice questions are looked up in the content files.
"""

import re
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import yaml

MODULES = Path(__file__).resolve().parents[2] / "content" / "modules"
NUMBER = r"(\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?)"


def as_number(words: str) -> float:
    """4 1/2 is four and a half, as a person reads it."""
    return float(sum(Fraction(part) for part in words.split()))


def numbers(text: str, *units: str) -> list[float]:
    """The first number before each unit named, in the order the units are named."""
    found, rest = [], text
    for unit in units:
        match = re.search(NUMBER + r"\s*" + unit, rest)
        assert match, f"no number of {unit} in {rest!r}"
        found.append(as_number(match.group(1)))
        rest = rest[match.end() :]
    return found


def collector(text: str) -> str:
    # 29 CFR 1926.1153 table 1: at least 25 cfm per inch of wheel diameter.
    (inches,) = numbers(text, r"in\b")
    return f"{25 * inches:g} cfm"


def share_of_lel(text: str) -> str:
    reading, limit = numbers(text.replace(",", ""), "ppm", "ppm")
    return f"{100 * reading / limit:.6g} %"


def b_target(text: str) -> str:
    parts_a, parts_b = map(float, re.search(rf"{NUMBER}.*? of A to {NUMBER}", text).groups())
    (a,) = numbers(text.split("caught", 1)[1], "mL")
    return f"{a * parts_b / parts_a:.6g} ml"


def least_b(text: str) -> str:
    parts_a, parts_b = map(float, re.search(rf"{NUMBER}.*? of A to {NUMBER}", text).groups())
    (percent,) = numbers(text.split("off by", 1)[1], "%")
    (a,) = numbers(text.split("caught", 1)[1], "mL")
    return f"{a * parts_b / parts_a * (1 - percent / 100):.6g} ml"


def b_over(text: str) -> str:
    parts_a, parts_b = map(float, re.search(rf"{NUMBER}.*? of A to {NUMBER}", text).groups())
    a, b = numbers(text.split("caught", 1)[1], "mL", "mL")
    return f"{100 * (b / (a * parts_b / parts_a) - 1):.6g} %"


def by_weight(text: str) -> str:
    parts_a, parts_b = map(float, re.search(rf"{NUMBER}.*? of A to {NUMBER}", text).groups())
    density_a, density_b = numbers(text.split("weighs", 1)[1], "g/mL", "g/mL")
    return f"{parts_a * density_a / (parts_b * density_b):.6g}"


SUMS: tuple[tuple[str, Callable[[str], str]], ...] = (
    ("How much air must the collector move", collector),
    ("What share of that limit is in the air", share_of_lel),
    ("How much B should there be", b_target),
    ("What is the least B that passes", least_b),
    ("By what share is B over its target", b_over),
    ("How many parts of A to one part of B", by_weight),
)


def typed_answer(question: str) -> str:
    """What a person who did the sum would type."""
    for phrase, work_out in SUMS:
        if phrase in question:
            return work_out(question)
    raise AssertionError(f"nobody here knows how to work out: {question}")


def right_options(module: str) -> dict[str, str]:
    """The right option's words by the question's words."""
    loaded = yaml.safe_load((MODULES / module / "questions.yaml").read_text())
    return {
        " ".join(q["text"]["en"].split()): next(
            o["text"]["en"] for o in q["options"] if o.get("right")
        )
        for q in loaded["questions"]
        if q["kind"] == "choice"
    }
