"""Imports point down: a package may import itself and the rows below it, nothing else of ours."""

import ast
from pathlib import Path

import pytest

APP = Path(__file__).resolve().parents[2] / "app"

# From the bottom up. Packages in one row never import each other.
ROWS = (
    ("trade", "ids"),
    ("curriculum", "database", "driver", "drawing"),
    ("records", "accounts", "workbook"),
    ("settings",),
    ("web",),
    ("worker", "trainer", "officer", "public"),
    ("demo",),
    ("factory", "migrations"),
    ("cli",),
)
RANK = {name: rank for rank, row in enumerate(ROWS) for name in row}

PURE = (
    "trade",
    "ids",
    "drawing",
    "curriculum/model.py",
    "curriculum/questions/variants.py",
    "curriculum/questions/marking.py",
    "curriculum/scoring.py",
    "curriculum/questions/mastery.py",
    "records/events.py",
    "records/deciding",
    "records/standing",
    "records/projection/pure",
)
IMPURE_LIBRARIES = {
    "flask",
    "flask_babel",
    "flask_wtf",
    "sqlalchemy",
    "os",
    "pathlib",
    "time",
    "random",
    "secrets",
    "subprocess",
    "socket",
}


def python_files() -> list[Path]:
    return sorted(p for p in APP.rglob("*.py"))


def package_of(path: Path) -> str:
    return path.relative_to(APP).parts[0].removesuffix(".py")


def imported_modules(path: Path) -> list[tuple[int, str]]:
    found = []
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Import):
            found += [(node.lineno, alias.name) for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.module:
            assert node.level == 0, f"{path}:{node.lineno}: write the import from app. on"
            found.append((node.lineno, node.module))
    return found


def test_every_top_level_package_has_a_row():
    names = {package_of(p) for p in python_files()} - {"__init__"}
    assert names <= set(RANK), f"give {names - set(RANK)} a row in ROWS and say why it is there"


@pytest.mark.parametrize("path", python_files(), ids=lambda p: str(p.relative_to(APP)))
def test_imports_point_down(path: Path):
    own = package_of(path)
    if own == "__init__":
        return
    for line, module in imported_modules(path):
        if not module.startswith("app."):
            continue
        other = module.split(".")[1]
        assert other == own or RANK[other] < RANK[own], (
            f"{path}:{line}: {own} may not import {other}. Move what both need into a row below, "
            "or hand it in as an argument."
        )


def pure_files() -> list[Path]:
    return [p for p in python_files() if any(str(p.relative_to(APP)).startswith(x) for x in PURE)]


@pytest.mark.parametrize("path", pure_files(), ids=lambda p: str(p.relative_to(APP)))
def test_pure_modules_touch_nothing_outside(path: Path):
    for line, module in imported_modules(path):
        assert module.split(".")[0] not in IMPURE_LIBRARIES, (
            f"{path}:{line}: {module} reaches outside. Pure modules get times, ids, files and "
            "randomness as arguments."
        )
