"""The sources page is open to everybody and names every entry with how sure we are of it."""

import re
from pathlib import Path

import pytest
import yaml

SOURCES = Path(__file__).resolve().parents[2] / "content" / "sources.yaml"


@pytest.fixture
def page(client) -> str:
    answer = client.get("/sources")
    assert answer.status_code == 200
    return answer.get_data(as_text=True)


def test_every_entry_of_the_file_has_its_anchor_once(page: str):
    entries = yaml.safe_load(SOURCES.read_text())
    anchors = re.findall(r'<li id="([^"]+)"', page)
    assert sorted(anchors) == sorted(entries)


def test_entries_stand_under_their_confidence(page: str):
    entries = yaml.safe_load(SOURCES.read_text())
    sections = re.findall(r'<section aria-labelledby="([^"]+)">(.*?)</section>', page, re.DOTALL)
    for confidence, inside in sections:
        for name in re.findall(r'<li id="([^"]+)"', inside):
            assert entries[name]["confidence"].replace(" ", "-") == confidence, name


def test_the_page_says_who_comes_first(page: str):
    assert "The engineer comes first." in page


def test_it_cannot_be_written_to(client):
    assert client.post("/sources").status_code == 405
