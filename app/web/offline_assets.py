"""What every phone keeps so that a page opens without signal: the list is built from the files.

The cache is named by the digest of everything in it, so a new version has a cache of its own and
an old page never meets half of a new one. The service worker is put together here from its parts,
with list and names in front; a changed file changes its text, and so browsers see a new version.
"""

import hashlib
import json
from collections.abc import Collection
from functools import cache
from pathlib import Path

from app.web.scripts import script_names, scripts_digest
from app.web.stylesheet import sheet_digest

WEB = Path(__file__).resolve().parent
PARTS = ("state", "pages", "assets", "wiring")
WORDS_IN = ("es",)  # English needs no table of sentences
OFFLINE_PAGE = "/offline"
# Scripts of pages that not every phone keeps: (role, beginning of the name). A phone of that role
# keeps them with the pages; another one not at all.
FOR_ROLES = (
    ("trainer", "wall/"),
    ("trainer", "trade/checks.js"),
    ("trainer", "trade/rules.js"),
    ("trainer", "trade/scoring.js"),
    ("", "practice.js"),  # the practice crack is played online
    ("", "practice-replay.js"),
)
# Pictures that pages show. Icons are fetched by the phone itself when it installs the app.
PICTURES = ("img/mark.svg", "img/crack.svg")


def assets() -> tuple[str, ...]:
    """The addresses of everything kept on every phone."""
    return (
        OFFLINE_PAGE,
        f"/assets/css/book-{sheet_digest()}.css",
        *(_address(name) for name in script_names() if not _is_for(name)),
        *(f"/assets/js-{scripts_digest()}/words/{language}.js" for language in WORDS_IN),
        *(f"/assets/{name}" for name in PICTURES),
    )


def assets_for(roles: Collection[str]) -> tuple[str, ...]:
    """The addresses of the scripts that phones of these roles keep beside those of everybody."""
    named = [name for name in script_names() if any(role in roles for role in _is_for(name))]
    return tuple(_address(name) for name in named)


def _is_for(name: str) -> list[str]:
    return [role for role, beginning in FOR_ROLES if name.startswith(beginning)]


def _address(name: str) -> str:
    return f"/assets/js-{scripts_digest()}/{name}"


@cache
def shell_digest() -> str:
    """The first 16 hex digits of the SHA-256 of all that is kept on every phone."""
    whole = hashlib.sha256("\n".join(assets()).encode())
    for name in (*PICTURES, "../templates/offline.html", "../templates/layout.html"):
        whole.update((WEB / "static" / name).read_bytes())
    return whole.hexdigest()[:16]


@cache
def templates_digest() -> str:
    """The first 16 hex digits of the SHA-256 of every template: what a kept page was made with."""
    whole = hashlib.sha256()
    for path in sorted(WEB.parent.glob("*/templates/**/*.html")):
        whole.update(path.read_bytes())
    return whole.hexdigest()[:16]


def service_worker() -> str:
    """The text of /sw.js."""
    names = {
        "SHELL": f"lowport-shell-{shell_digest()}",
        "ASSETS": list(assets()),
        "SCRIPTS": f"/assets/js-{scripts_digest()}/",
        "SHEET": f"/assets/css/book-{sheet_digest()}.css",
    }
    head = "".join(f"const {name} = {json.dumps(value)};\n" for name, value in names.items())
    parts = [(WEB / "service_worker" / f"{part}.js").read_text() for part in PARTS]
    return "\n".join([head, *parts])
