"""Files stay small, and nothing that is ours names what must not be named."""

import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]

MOST_LINES = {".py": 300, ".html": 130, ".js": 200, ".css": 260}
VAGUE_NAMES = re.compile(r"(utils?|helpers?|common|manager|service)\.(py|js)$")
# A path of somebody's machine, or the address of a package registry.
LEAKS = re.compile(r"(?:/home/\w+|/root/|pypi\.org|registry\.npmjs|deb\.debian\.org)")


def tracked(*endings: str) -> list[Path]:
    listed = subprocess.run(
        ["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout.split("\n")
    paths = [ROOT / name for name in listed if name.endswith(endings)]
    return [p for p in paths if p.is_file()]


@pytest.mark.parametrize("path", tracked(".py", ".html", ".js", ".css"), ids=lambda p: p.name)
def test_files_stay_small(path: Path):
    if path.parent.name == "versions":
        return  # a migration lists every column once and is never read for its logic
    lines = path.read_text().count("\n")
    assert lines <= MOST_LINES[path.suffix], f"{path}: {lines} lines; split it by what it does"


@pytest.mark.parametrize("path", tracked(".py", ".js"), ids=lambda p: p.name)
def test_names_say_what_is_inside(path: Path):
    assert not VAGUE_NAMES.search(path.name), f"{path}: name it after what it does"


def test_no_two_test_files_share_a_name():
    """pytest imports test files by name alone, so the second of two would not be collected."""
    names = [path.name for path in tracked(".py") if path.name.startswith("test_")]
    assert sorted(names) == sorted(set(names))


def test_nothing_names_a_machine_or_a_registry():
    for path in tracked(".py", ".html", ".md", ".yaml", ".txt", ".toml", ".css", ".js", "Makefile"):
        if path == Path(__file__):
            continue
        found = LEAKS.search(path.read_text())
        assert not found, f"{path}: {found and found.group()}"


def test_templates_carry_no_inline_script_or_style():
    # A block of data is no script: nothing in it ever runs.
    script = r"<script(?![^>]*(?:\bsrc=|type=\"application/json\"))"
    inline = re.compile(script + r"|<style|\sstyle=|\son[a-z]+=\"")
    for path in tracked(".html"):
        found = inline.search(path.read_text())
        assert not found, f"{path}: {found and found.group()} is refused by the page's own policy"
