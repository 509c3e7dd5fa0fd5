"""What a lesson file must hold, and how it is told when it does not."""

import pytest

from app.curriculum.loading.content import load_curriculum


def test_a_fact_links_to_its_source_in_the_list_of_its_card(small):
    step = load_curriculum(small.folder).module("small-module").lesson("en").step("step-a")
    assert 'href="#src-step-a-a-source"' in step.do.html
    assert step.source_ids() == ("a-source", "b-source")
    assert "<strong>brush</strong>" in step.do.html


def test_the_figure_carries_the_words_of_the_lesson(small):
    figure = load_curriculum(small.folder).module("small-module").lesson("en").step("step-a").figure
    assert '<title id="step-a-figure-title">A line</title>' in figure.svg
    assert "One line goes down to the right." in figure.svg


def test_cautions_keep_their_signal_word(small):
    step = load_curriculum(small.folder).module("small-module").lesson("en").step("step-b")
    assert [(one.signal, one.text.html) for one in step.cautions] == [
        ("WARNING", "Dust can harm you.")
    ]


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ("It is clean.", "It is clean in 5 minutes.", 18, "a bare number ('5 minutes.')"),
        ("{{50 mm | 2 in | a-source}}", "{{50 mm | 2 in | nobody}}", 15, "no source nobody"),
        ("{{50 mm | 2 in | a-source}}", "{{50 mm | 20 in | a-source}}", 15, "more than 10 %"),
        ("{{50 mm | 2 in | a-source}}", "{{50 mm | 2 wide | a-source}}", 15, "no unit"),
        ("{{50 mm | 2 in | a-source}}", "{{50 mm}}", 15, "must be {{metric | US | source}}"),
        ("figure: one.svg |", "figure: two.svg |", 11, "there is no figures/two.svg"),
        ("figure: one.svg |", "figure: ../one.svg |", 11, "there is no figures/../one.svg"),
        ("| A line | One line goes down to the right.", "| A line", 11, "reads: figure:"),
        ("caution: WARNING", "caution: BEWARE", 12, "the word one of DANGER"),
        ("It is clean.", "It is <b>clean</b>.", 18, "holds an HTML tag"),
        ("module: small-module", "module: other", 2, "folder of another module"),
        ("summary: Learn one", "summary: Learn 1", 4, "holds a number"),
        ("## step-a | Do the", "## step-a | Do 2 of the", 10, "the title holds a number"),
        ("local codes come first", "friends come first", 8, "who comes first: local codes"),
    ],
)
def test_a_wrong_line_is_named(small, old, new, line, said):
    found = small.change("lesson.en.md", old, new).problem()
    assert found.startswith(f"lesson.en.md:{line}: "), found
    assert said in found


@pytest.mark.parametrize("part", ["Do", "Check", "Stop if", "Why"])
def test_a_missing_part_is_named_at_its_step(small, part):
    path = small.module / "lesson.en.md"
    lines = path.read_text().splitlines()
    at = lines.index(f"### {part}")
    del lines[at : at + 3]
    path.write_text("\n".join(lines))
    found = small.problem()
    assert found.startswith("lesson.en.md:10: step-a.")
    assert f"the part {part} is missing" in found


def test_ordered_lists_may_count_their_lines(small):
    small.change("lesson.en.md", "It is clean.", "1. It is clean.\n2. It is dry.")
    lesson = load_curriculum(small.folder).module("small-module").lesson("en")
    assert lesson.step("step-a").check.html.count("<li>") == 2


def test_five_steps_are_too_few(small):
    path = small.module / "lesson.en.md"
    path.write_text(path.read_text().split("\n## step-f")[0])
    assert small.problem().startswith("lesson.en.md:1: steps: 6 to 12 steps are wanted, 5")


def test_one_figure_is_too_few(small):
    line = "figure: one.svg | A line | One line goes down to the right.\n"
    small.change("lesson.en.md", line, "")
    assert "at least 2 are wanted, 1" in small.problem()


def test_a_step_id_may_not_stand_twice(small):
    small.change("lesson.en.md", "## step-b |", "## step-a |")
    assert "this step id stands twice" in small.problem()


def test_text_between_heading_and_parts_is_not_lost_in_silence(small):
    small.change("lesson.en.md", "### Do", "Some stray words.\n### Do")
    assert "only figure: and caution: may stand" in small.problem()


def test_an_unknown_part_is_named(small):
    small.change("lesson.en.md", "### Why", "### Because")
    assert any("a part is one of Do, Check, Stop if, Why" in line for line in small.problems())


def test_a_file_without_front_matter_is_named(small):
    (small.module / "lesson.en.md").write_text("## step-a | Do it\n")
    assert "begins without front matter" in small.problem()
