"""Babel's way into our files: what stands in ``_()``, and what is translated at run time.

Pure code carries no gettext. It holds whole sentences, which a page hands to gettext when it shows
them: the template of a refusal, the sentence of a reason, the question of an unreadable text. They
are found by their form, so that none has to be copied into a list: a text that begins like a
sentence and ends with a full stop or a question mark. So are the template of a refusal, the reason
it is given, and the values of a table of words.
"""

import ast
import json
import re
from collections.abc import Iterator
from io import BytesIO
from typing import IO, Any

from babel.messages.extract import extract_python

from app.web.scripts import sentences

Found = tuple[int, str | None, Any, list[str]]

# Told on the command line only, in English.
_NOT_ON_PAGES = ("cli", "demo", "migrations", "settings")
_BARE = re.compile(r"[^\W\d_](?![^{]*})")  # a letter outside of braces
_TABLES = ("_WORDS", "SENTENCES", "_OF_MODULES")
_OPENINGS = ("{", "“")
_ENDS = (".", "?")
_TO_THE_DATABASE = re.compile(r"(SELECT|INSERT|UPDATE|DELETE) ")  # a statement may end in "?" too


def extract_words(
    file: IO[bytes], keywords: Any, comment_tags: Any, options: dict[str, Any]
) -> Iterator[Found]:
    """Yield the line, function and text of each; the signature is the one Babel asks for."""
    source = file.read()
    yield from extract_python(BytesIO(source), keywords, comment_tags, options)  # type: ignore[misc]
    package = getattr(file, "name", "").replace("\\", "/").rpartition("app/")[2].partition("/")[0]
    if package.removesuffix(".py") not in _NOT_ON_PAGES:
        yield from ((node.lineno, None, node.value, []) for node in run_time_words(source))


def extract_script_words(
    file: IO[bytes], keywords: Any, comment_tags: Any, options: dict[str, Any]
) -> Iterator[Found]:
    """Yield what a script says to people; scripts.sentences knows how it says it."""
    source = file.read().decode()
    for sentence in sentences():
        place = source.find(json.dumps(sentence, ensure_ascii=False))
        if place >= 0:
            yield source.count("\n", 0, place) + 1, None, sentence, []


def run_time_words(source: bytes | str) -> list[ast.Constant]:
    """The texts of a Python file that pages translate when they show them, in order."""
    tree = ast.parse(source)
    silent = _not_shown(tree)
    named = {id(node) for node in _named(tree)}
    found = (
        node
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and _BARE.search(node.value)
        and id(node) not in silent
        and (id(node) in named or is_sentence(node.value))
    )
    return sorted(found, key=lambda node: (node.lineno, node.col_offset))


def is_sentence(text: str) -> bool:
    """Whether a text has the form of a whole sentence: “Not passed.”, “{number} what?”."""
    opens = text[:1].isupper() or text.startswith(_OPENINGS)
    is_statement = _TO_THE_DATABASE.match(text) is not None
    return opens and not is_statement and " " in text and text.endswith(_ENDS)


def _not_shown(tree: ast.AST) -> set[int]:
    """Docstrings, and the parts of f-strings: those can't be translated."""
    found = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            found.add(id(node.value))
        elif isinstance(node, ast.JoinedStr):
            found |= {id(part) for part in ast.walk(node)}
    return found


def _named(tree: ast.AST) -> Iterator[ast.AST]:
    """The templates of refusals, the reasons handed to them, the values of tables of words."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            yield from (word.value for word in node.keywords if word.arg == "reason")
            if getattr(node.func, "id", "") == "NotListed":
                yield from node.args[2:3]
        elif isinstance(node, ast.Assign):
            names = [getattr(t, "id", getattr(t, "attr", "")) for t in node.targets]
            if "template" in names:
                yield node.value
            elif isinstance(node.value, ast.Dict) and any(n.endswith(_TABLES) for n in names):
                yield from node.value.values
