"""All sheets as one file whose name carries its digest, so that a phone fetches it once."""

import hashlib
from functools import cache
from pathlib import Path

CSS = Path(__file__).resolve().parent / "static" / "css"

# The order matters: tokens first, paper last.
SCREEN = (
    "tokens",
    "base",
    "book",
    "spread",
    "foot",
    "buttons",
    "forms",
    "sheets",
    "signals",
    "lesson",
    "learn",
    "figures",
    "margin",
    "verdict",
    "repair",
    "at-the-wall",
    "standing",
    "tables",
    "phone",
    "forced",
)
PAPER = ("print",)


@cache
def sheet_text() -> str:
    """Every sheet in order, those for paper inside a print rule."""
    screen = "\n".join((CSS / f"{name}.css").read_text() for name in SCREEN)
    paper = "\n".join((CSS / f"{name}.css").read_text() for name in PAPER)
    return f"{screen}\n@media print {{\n{paper}\n}}\n"


@cache
def sheet_digest() -> str:
    """The first 16 hex digits of the SHA-256 of the sheets."""
    return hashlib.sha256(sheet_text().encode()).hexdigest()[:16]
