"""What qualifications.yaml and sources.yaml must hold."""

import pytest


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("trainers_required: 2", "trainers_required: 3", "more trainers are required than"),
        ("used_low: 0.8", "used_low: 1.6", "used_low must be below used_high"),
        ("validity_months: 24", "validity_months: 0", "greater than or equal to 1"),
        ("quiz_pass_share: 0.8", "quiz_pass_share: 8", "less than or equal to 1"),
        ("  quiz_pass_share: 0.8\n", "", "quiz_pass_share: is missing"),
        ("summary: {en: Does", "colour: red\n    summary: {en: Does", "is not a known key"),
        ("    modules: [small-module]", "    modules: [nothing]", "there is no module nothing"),
        ("policy_version: \"test\"", "policy_version: 3", "must be a text in quotes"),
        (
            "    modules: [small-module]",
            "    modules: [small-module]\n    prerequisites: [small-hand]",
            "no qualification small-hand stands above",
        ),
    ],
)  # fmt: skip
def test_a_wrong_policy_is_named(small, old, new, said):
    found = small.change("qualifications.yaml", old, new).problems()
    assert any(said in line for line in found), found
    assert all(line.startswith("qualifications.yaml:") for line in found)


def test_a_source_needs_to_say_how_sure_it_is(small):
    small.change("sources.yaml", "  confidence: common practice\n", "")
    assert "sources.yaml:5: b-source.confidence: is missing" in small.problems()


def test_a_source_twice_is_refused(small):
    small.change("sources.yaml", "b-source:", "a-source:")
    assert "sources.yaml:5: file: the key a-source stands twice" in small.problems()
