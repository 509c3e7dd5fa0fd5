"""Content is loaded whole or not at all, and every problem is named with its place."""

import pytest

from app.curriculum.loading.content import ContentErrors, load_curriculum, load_kept_module


def test_sound_content_is_loaded_whole(small):
    curriculum = load_curriculum(small.folder)
    module = curriculum.module("small-module")
    assert [step.id for step in module.lesson("en").steps] == [f"step-{x}" for x in "abcdef"]
    assert [step.number for step in module.lesson("en").steps] == [1, 2, 3, 4, 5, 6]
    assert len(module.questions) == 5
    assert module.item("ratio-in-tolerance").measures[1].label.in_language("en") == "Side B caught"
    assert curriculum.qualification("small-hand").validity_months == 24
    assert curriculum.policy_version == "test"
    assert curriculum.source("b-source").confidence == "common practice"


def test_a_language_without_a_lesson_gets_the_english_one(small):
    module = load_curriculum(small.folder).module("small-module")
    assert module.lesson("es") is module.lesson("en")


def test_every_problem_is_raised_together_with_file_line_and_key(small):
    small.change("lesson.en.md", "minutes: 5", "minutes: none")
    small.change("questions.yaml", "right: true", "right: false")
    small.change("sources.yaml", "confidence: published", "confidence: hearsay")
    found = small.problems()
    assert len(found) >= 3
    assert any(line.startswith("modules/small-module/lesson.en.md:5: minutes: ") for line in found)
    assert any(line.startswith("modules/small-module/questions.yaml:3: ") for line in found)
    assert any(line.startswith("sources.yaml:4: a-source.confidence: must be") for line in found)


def test_a_module_folder_that_nobody_listed_is_a_problem(small):
    (small.folder / "modules" / "stray").mkdir()
    assert small.problems() == [
        "modules/stray:1: folder: is not listed in qualifications.yaml",
    ]


def test_a_missing_file_is_named(small):
    (small.module / "checklist.yaml").unlink()
    assert small.problem() == "checklist.yaml:1: file: is missing"


def test_a_missing_module_is_named(small):
    small.change("qualifications.yaml", "modules: [small-module]", "modules: [small-module, gone]")
    assert small.problems() == ["modules/gone:1: folder: is missing"]


def module_of(small):
    return load_curriculum(small.folder).module("small-module")


def test_the_hash_changes_with_any_byte_a_worker_sees_and_with_nothing_else(small):
    before = module_of(small).content_hash
    assert len(before) == 64
    (small.module / ".editor-swap").write_text("x")
    small.change("sources.yaml", "Usual on site", '"Usual on site"  # quoted now')
    assert module_of(small).content_hash == before
    seen = {before}
    for file, old, new in (
        ("figures/one.svg", "L10 10", "L10 11"),
        ("lesson.en.md", "Learn one small thing.", "Learn one thing."),
        ("questions.yaml", "You took half the depth.", "You took half of it."),
        ("checklist.yaml", "Side B caught", "Side B taken"),
        ("sources.yaml", "page one", "page two"),
    ):
        small.change(file, old, new)
        seen.add(module_of(small).content_hash)
    assert len(seen) == 6


def test_a_module_made_from_its_kept_files_is_the_same_module(small):
    module = module_of(small)
    assert load_kept_module(module.id, module.files) == module


def test_kept_files_that_can_no_longer_be_read_say_so(small):
    files = {**module_of(small).files, "modules/small-module/checklist.yaml": b"[]"}
    with pytest.raises(ContentErrors):
        load_kept_module("small-module", files)


def test_no_module_has_the_name_of_the_policy(small):
    (small.folder / "modules" / "policy").mkdir()
    assert any("can't have the policy's name" in line for line in small.problems())


def test_a_translation_must_have_the_same_steps(small):
    english = (small.module / "lesson.en.md").read_text()
    (small.module / "lesson.es.md").write_text(english.replace("## step-b", "## otro-paso"))
    found = small.problems()
    assert (
        "modules/small-module/lesson.es.md:1: steps: are not the steps of the English" in found[0]
    )
    assert len(found) == 1


def test_a_lesson_too_hard_to_read_is_refused(small):
    hard = " ".join(["Interdepartmental organisational considerations necessitate"] * 40)
    small.change("lesson.en.md", "It is clean.", hard)
    assert "plainness: too hard to read" in small.problem()
