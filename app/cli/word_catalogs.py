"""The Spanish of the pages: collected from the code, kept in messages.po, compiled to messages.mo.

Both files are in the repository, so that nothing has to be compiled before the first start. They
carry no dates and no line numbers: collected twice, they are the same.
"""

import io
import os
import re
from collections import Counter
from pathlib import Path

from babel.messages.catalog import Catalog, Message
from babel.messages.extract import DEFAULT_KEYWORDS, extract_from_dir
from babel.messages.frontend import parse_mapping_cfg
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

ROOT = Path(__file__).resolve().parents[2]
PO = ROOT / "app" / "translations" / "es" / "LC_MESSAGES" / "messages.po"
MO = PO.with_suffix(".mo")

KEYWORDS = {**DEFAULT_KEYWORDS, "lazy_gettext": None, "_l": None}
HEADER = [
    ("Project-Id-Version", "Lowport"),
    ("Language", "es"),
    ("MIME-Version", "1.0"),
    ("Content-Type", "text/plain; charset=utf-8"),
    ("Content-Transfer-Encoding", "8bit"),
    ("Plural-Forms", "nplurals=2; plural=(n != 1);"),
]
_PLACE = re.compile(r"%\(\w+\)[sd]|%%|\{\w+\}")


def collected() -> Catalog:
    """Every text of the pages as the code has it now, without Spanish."""
    with (ROOT / "babel.cfg").open() as file:
        methods, options = parse_mapping_cfg(file)
    catalog = _catalog()
    found = extract_from_dir(ROOT, methods, options, KEYWORDS, directory_filter=_is_searched)
    for name, _line, text, _comments, context in found:
        catalog.add(text, None, [(name, None)], context=context)
    return catalog


def _is_searched(folder: str | os.PathLike[str]) -> bool:
    """Babel on its own would leave out _components, and walk through .venv for nothing."""
    path = Path(folder)
    return path.is_relative_to(ROOT / "app") and path.name != "__pycache__"


def translated() -> Catalog:
    """The Spanish as it is kept."""
    catalog = _catalog()
    if PO.exists():
        with PO.open("rb") as file:
            kept = read_po(file, locale="es")
        for message in kept:
            if message.id:
                catalog[message.id] = message
    return catalog


def brought_up_to_date() -> Catalog:
    """Today's texts with the Spanish there is for them; Spanish for texts gone by is dropped."""
    kept, fresh = translated(), collected()
    for message in fresh:
        known = kept.get(message.id, context=message.context) if message.id else None
        message.locations = sorted(set(message.locations))
        if known is not None:
            message.string = known.string
            message.flags |= known.flags & {"fuzzy"}
    return fresh


def keep(catalog: Catalog) -> None:
    """Write both files."""
    PO.write_bytes(po_bytes(catalog))
    MO.write_bytes(mo_bytes(catalog))


def is_compiled() -> bool:
    """Whether messages.mo is made from the messages.po that lies beside it."""
    return MO.exists() and MO.read_bytes() == mo_bytes(translated())


def po_bytes(catalog: Catalog) -> bytes:
    """The catalog as it stands in messages.po."""
    out = io.BytesIO()
    write_po(out, catalog, width=96, include_lineno=False, sort_by_file=True)
    return out.getvalue()


def mo_bytes(catalog: Catalog) -> bytes:
    """The catalog as it stands in messages.mo."""
    out = io.BytesIO()
    write_mo(out, catalog)
    return out.getvalue()


def problems(message: Message) -> list[str]:
    """What is wrong with one text's Spanish; empty when all is well."""
    english = message.id if isinstance(message.id, tuple) else (message.id,)
    spanish = message.string if isinstance(message.string, tuple) else (message.string,)
    if len(spanish) != max(len(english), 1) or not all(spanish):
        return ["has no Spanish"]
    found = ["is marked fuzzy"] if message.fuzzy else []
    # Of a plural, the form for one may leave the number out.
    wanted = set(_PLACE.findall(english[-1]))
    for text, source in zip(spanish, english, strict=True):
        places = Counter(_PLACE.findall(text))
        least = wanted if source == english[-1] else set(_PLACE.findall(source))
        if not least <= set(places) <= wanted:
            found.append(f"has other places: {sorted(places)} in “{text}”")
    return found


class _Undated(Catalog):
    """A catalog whose head names no day, no person and no version."""

    @property
    def mime_headers(self) -> list[tuple[str, str]]:
        return HEADER


def _catalog() -> Catalog:
    return _Undated(locale="es", fuzzy=False, header_comment="# The pages in Spanish: make words")
