"""The list of sources is whole: every entry says what, where and how sure."""

from pathlib import Path

import pytest
import yaml

PATH = Path(__file__).resolve().parents[2] / "content" / "sources.yaml"
SOURCES = yaml.safe_load(PATH.read_text())


@pytest.mark.parametrize("name", SOURCES)
def test_an_entry_says_what_where_and_how_sure(name):
    entry = SOURCES[name]
    assert entry["title"]
    assert entry["where"]
    assert entry["confidence"] in ("published", "common practice", "from memory")
    assert set(entry) <= {"title", "where", "confidence", "restated", "note"}
    assert entry.get("restated", True) is True


def test_no_id_stands_twice():
    ids = [line[:-1] for line in PATH.read_text().splitlines() if line.endswith(":")]
    ids = [name for name in ids if name and not name.startswith(("#", " "))]
    assert len(ids) == len(set(ids)) == len(SOURCES)
