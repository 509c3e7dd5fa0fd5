"""Keeping a text's bytes when it is approved, and getting them back years later."""

from collections.abc import Iterable, Mapping
from hashlib import sha256

from sqlalchemy import ColumnElement, Connection, insert, select

from app.curriculum.bundles import files_named, hash_of, manifest_of
from app.records.texts.tables import kept_text
from app.trade.errors import Refusal


class TextLost(Refusal):
    """The bytes of a text are not there, or are not the ones that were kept."""

    template = "The text with the fingerprint {sha256} is not here as it was kept."


def keep_text(connection: Connection, files: Mapping[str, bytes]) -> str:
    """Keep a text's files and manifest, those already kept left as they are; return its hash."""
    bodies = [*files.values(), manifest_of(files)]
    rows = {sha256(body).hexdigest(): body for body in bodies}
    here = set(connection.scalars(select(kept_text.c.sha256).where(_among(rows))))
    new = [{"sha256": name, "body": body} for name, body in rows.items() if name not in here]
    if new:
        connection.execute(insert(kept_text), new)
    return hash_of(files)


def is_kept(connection: Connection, text_hash: str) -> bool:
    """Whether a text was ever approved here, so that it can be opened."""
    wanted = select(kept_text.c.sha256).where(kept_text.c.sha256 == text_hash)
    return connection.scalar(wanted) is not None


def kept_files(connection: Connection, text_hash: str) -> dict[str, bytes]:
    """The files of a text by path. Raises TextLost where a byte is missing or is another one."""
    manifest = _bodies(connection, [text_hash], text_hash)[text_hash]
    try:
        named = files_named(manifest)
    except ValueError:
        raise TextLost(sha256=text_hash) from None
    bodies = _bodies(connection, named.values(), text_hash)
    return {path: bodies[name] for path, name in named.items()}


def _bodies(connection: Connection, wanted: Iterable[str], text_hash: str) -> dict[str, bytes]:
    names = set(wanted)
    rows = connection.execute(select(kept_text).where(_among(names)))
    found = {row.sha256: bytes(row.body) for row in rows}
    is_whole = all(sha256(body).hexdigest() == name for name, body in found.items())
    if not is_whole or found.keys() != names:
        raise TextLost(sha256=text_hash)
    return found


def _among(names: Iterable[str]) -> ColumnElement[bool]:
    return kept_text.c.sha256.in_(list(names))
