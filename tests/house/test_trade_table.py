"""The guide's table of sources and outside checks is that of the registry, function by function."""

import re
from pathlib import Path

import pytest
import yaml

from app.trade.registry import CALCULATORS

ROOT = Path(__file__).resolve().parents[2]
SOURCES = yaml.safe_load((ROOT / "content" / "sources.yaml").read_text())
# | `name` | source, source | how sure | what it is held against |
ROW = re.compile(r"^\| `(\w+)` \| ([^|]+) \| ([^|]+) \| ([^|]+) \|$", re.MULTILINE)
ROWS = {found[1]: found for found in ROW.finditer((ROOT / "DEVELOPERS.md").read_text())}


def confidence(sources: tuple[str, ...]) -> str:
    found = {SOURCES[name]["confidence"] for name in sources}
    if found == {"from memory"}:
        return "**from memory only**"
    return ", ".join(n for n in ("published", "common practice", "from memory") if n in found)


def test_the_table_has_every_calculator_and_no_other():
    assert set(ROWS) == set(CALCULATORS)


@pytest.mark.parametrize("name", CALCULATORS)
def test_a_row_says_where_from_how_sure_and_held_against_what(name: str):
    _, sources, sure, check = ROWS[name].groups()
    assert tuple(sources.split(", ")) == CALCULATORS[name].sources
    assert sure == confidence(CALCULATORS[name].sources)
    assert len(check.split()) >= 2, "name what outside of this project it is held against"
