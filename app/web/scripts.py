"""All scripts under one folder name that carries their digest, so that a phone fetches them once.

The modules import each other by relative addresses, so they stay inside the folder they were first
asked from: a page never mixes scripts of two versions. ``words/<language>.js`` is made here from
the catalogue: the sentences that stand in ``say("…")`` in the scripts, translated.
"""

import hashlib
import json
import re
from collections.abc import Callable, Mapping
from functools import cache
from pathlib import Path

JS = Path(__file__).resolve().parent / "static" / "js"
TRANSLATIONS = JS.parents[2] / "translations"
WORDS = re.compile(r"words/([a-z]{2})\.js")
# say("…") anywhere, and the question of a refused reading: Unreadable(text, "…").
_SAID = re.compile(r'(?:\bsay\(|\bUnreadable\(\s*(?:text|typed),)\s*"((?:[^"\\]|\\.)*)"')


@cache
def script_names() -> tuple[str, ...]:
    """Every script as pages name it, in order."""
    return tuple(sorted(p.relative_to(JS).as_posix() for p in JS.rglob("*.js")))


def script_text(name: str) -> str | None:
    """The script of that name, or None."""
    return (JS / name).read_text() if name in script_names() else None


@cache
def scripts_digest() -> str:
    """The first 16 hex digits of the SHA-256 of names and texts, translations included."""
    whole = hashlib.sha256()
    for catalogue in sorted(TRANSLATIONS.rglob("*.mo")):
        whole.update(catalogue.read_bytes())
    for name in script_names():
        whole.update(f"{name}\0{(JS / name).read_text()}\0".encode())
    return whole.hexdigest()[:16]


@cache
def sentences() -> tuple[str, ...]:
    """Every sentence the scripts say to people, each once."""
    found: dict[str, None] = {}
    for name in script_names():
        for said in _SAID.findall((JS / name).read_text()):
            found[json.loads(f'"{said}"')] = None
    return tuple(found)


def words_script(translate: Callable[[str], str], named: Mapping[str, str]) -> str:
    """The module with the sentences in one language; those that stay the same are left out.

    `named`: what scripts know by a name of the code, such as a quantity, in the same language.
    """
    table = {one: told for one in sentences() if (told := translate(one)) != one}
    table |= {name: told for name, told in named.items() if told != name}
    return f"export default {json.dumps(table, ensure_ascii=False, sort_keys=True)};\n"
