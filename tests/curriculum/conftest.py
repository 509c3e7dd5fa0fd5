"""A small, sound content folder that a test spoils in one place."""

from pathlib import Path

import pytest

from app.curriculum.loading.content import ContentErrors, load_curriculum

POLICY = """\
policy_version: "test"
modules: [small-module]
defaults:
  practicals_required: 2
  trainers_required: 2
  validity_months: 24
  continuity_months: 6
  late_entry_days: 14
  grace_days: 30
  evidence_months: 12
  due_soon_days: 30
  practical_pass_share: 0.8
  used_low: 0.8
  used_high: 1.5
  quiz_questions: 8
  quiz_pass_share: 0.8
qualifications:
  - id: small-hand
    title: {en: Small hand}
    summary: {en: Does small things.}
    modules: [small-module]
"""

SOURCES = """\
a-source:
  title: {en: Clean a band along the crack}
  where: A standard of the trade, page one
  confidence: published
b-source:
  title: {en: Mix both parts}
  where: Usual on site
  confidence: common practice
"""

HEAD = """\
---
module: small-module
title: A small module
summary: Learn one small thing.
minutes: 5
revision: 1
---
The engineer, the product data sheet, the safety data sheet and local codes come first.
"""

STEP = """
## step-{letter} | Do the small thing
{extra}
### Do
Clean a band of {{{{50 mm | 2 in | a-source}}}} with a **brush**.

### Check
It is clean.

### Stop if
It is not.

### Why
Dirt keeps resin off ({{{{1:1 | b-source}}}}).
"""

FIGURE = """\
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 50">
  <title>x</title>
  <desc>y</desc>
  <defs><clipPath id="cut"><rect x="0" y="0" width="9" height="9"/></clipPath></defs>
  <path class="ink" clip-path="url(#cut)" d="M0 0 L10 10"/>
  <text class="label" x="1" y="1">A</text>
</svg>
"""

CHECKLIST = """\
module: small-module
items:
  - id: band-clean
    critical: true
    text: {en: The band is clean}
  - id: ratio-in-tolerance
    text: {en: The ratio sample is in tolerance}
    measures:
      - {id: sample_a, quantity: volume, unit: ml, label: {en: Side A caught}}
      - {id: sample_b, quantity: volume, unit: ml, label: {en: Side B caught}}
    rule: >-
      ratio_check(measured_a_ml=sample_a, measured_b_ml=sample_b, parts_a=resin_parts_a,
      parts_b=resin_parts_b, tolerance=resin_ratio_tolerance)
    source: a-source
"""

CHOICE = """\
  - id: choice-{letter}
    kind: choice
    version: 1
    text: {{en: Which one}}
    options:
      - {{id: a, right: true, text: {{en: This}}}}
      - {{id: b, text: {{en: That}}, feedback: {{en: It is not that one}}}}
    explanation: {{en: Because it is.}}
"""

COMPUTED = """\
  - id: resin-for-crack
    kind: computed
    version: 1
    text: {en: "A crack is {length} long, {depth} deep, {width} wide. Add {waste}."}
    variables:
      length: {unit: ft, from: 6, to: 20, step: 1}
      depth: {unit: in, choices: [6, 8, 10, 12]}
      width: {unit: mil, choices: [15, 20, 25]}
      waste: {unit: "%", choices: [15, 20]}
    answer:
      quantity: volume
      unit: floz
      key: >-
        resin_needed(length_mm=length, depth_mm=depth, width_mm=width, waste=waste).total_ml
      relative: "0.02"
    slips:
      - id: no-waste
        formula: crack_volume(length_mm=length, depth_mm=depth, width_mm=width)
        feedback: {en: You left out the waste.}
      - id: half-depth
        formula: >-
          crack_volume(length_mm=length, depth_mm=depth / 2, width_mm=width) * (1 + waste)
        feedback: {en: You took half the depth.}
    solution: {en: "Net {net}; with {waste} more {key}."}
    working: {net: "crack_volume(length_mm=length, depth_mm=depth, width_mm=width)"}
    working_quantities: {net: volume}
    source: a-source
"""


class SmallContent:
    """The folder, and what the loader says about it after a change."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.module = folder / "modules" / "small-module"

    def change(self, file: str, old: str, new: str) -> "SmallContent":
        """Replace the first `old` in a file; the test fails if it is not there."""
        path = self.folder / file if (self.folder / file).exists() else self.module / file
        text = path.read_text()
        assert old in text, f"{old!r} is not in {file}"
        path.write_text(text.replace(old, new, 1))
        return self

    def problems(self) -> list[str]:
        """Every problem as it is printed."""
        with pytest.raises(ContentErrors) as raised:
            load_curriculum(self.folder)
        return [str(problem) for problem in raised.value.problems]

    def problem(self) -> str:
        """The only problem there is."""
        found = self.problems()
        assert len(found) == 1, found
        return found[0].removeprefix("modules/small-module/")


@pytest.fixture
def small(tmp_path: Path) -> SmallContent:
    """A sound content folder with one module, one qualification and two sources."""
    content = SmallContent(tmp_path / "content")
    (content.module / "figures").mkdir(parents=True)
    (content.folder / "qualifications.yaml").write_text(POLICY)
    (content.folder / "sources.yaml").write_text(SOURCES)
    (content.module / "lesson.en.md").write_text(HEAD + "".join(map(_step, "abcdef")))
    (content.module / "figures" / "one.svg").write_text(FIGURE)
    (content.module / "checklist.yaml").write_text(CHECKLIST)
    choices = "".join(CHOICE.format(letter=letter) for letter in "abcd")
    questions = f"module: small-module\nquestions:\n{choices}{COMPUTED}"
    (content.module / "questions.yaml").write_text(questions)
    return content


def _step(letter: str) -> str:
    figure = "figure: one.svg | A line | One line goes down to the right.\n"
    caution = "caution: WARNING | Dust can harm you.\n"
    return STEP.format(letter=letter, extra=figure + caution if letter in "ab" else "")
