"""What checklist.yaml must hold, and how it is told when it does not."""

import pytest


@pytest.mark.parametrize(
    ("old", "new", "line", "said"),
    [
        ("ratio_check(", "1 + ratio_check(", 11, "a rule is one call"),
        ("ratio_check(", "ratio_chek(", 11, "there is no calculator ratio_chek"),
        ("parts_a=resin_parts_a", "parts_a=resin_shares_a", 11, "no job value resin_shares_a"),
        ("measured_b_ml=sample_b", "measured_b_ml=sample_a", 11, "sample_b is measured but"),
        ("id: sample_b", "id: sample_a", 10, "the name sample_a is taken"),
        ("id: sample_b, quantity: volume", "id: sample_b, quantity: mass", 10, "ml is no unit of"),
        ("source: a-source", "source: nobody", 14, "there is no source nobody"),
        ("{en: The band is clean}", "{en: The band is 50 mm}", 3, "the item holds a number"),
        ("critical: true", "critical: yes", 4, "valid boolean"),
        ("id: ratio-in-tolerance", "id: band-clean", 6, "stands twice"),
        ("module: small-module", "module: other", 1, "another module"),
        ("text: {en: The band is clean}", "", 3, "is missing"),
    ],
)
def test_a_wrong_item_is_named_with_its_line(small, old, new, line, said):
    found = small.change("checklist.yaml", old, new).problems()
    assert found[0].startswith(f"modules/small-module/checklist.yaml:{line}: "), found
    assert said in found[0]


def test_a_rule_needs_a_verdict(small):
    path = small.module / "checklist.yaml"
    head = path.read_text().split("    rule: >-")[0]
    rule = "split_by_volume(total_ml=sample_a, parts_a=sample_b, parts_b=resin_parts_b)"
    path.write_text(f"{head}    rule: {rule}\n    source: a-source\n")
    assert "split_by_volume gives no is_within" in small.problem()
