"""Plain data -> bytes, the only serialiser of records (RFC 8785, JSON Canonicalization Scheme).

Without floats and with ASCII keys, sorted UTF-8 JSON without spaces is that scheme; a test holds
the bytes against a library made for it.
"""

from typing import TypeAlias
from unicodedata import normalize

import orjson

from app.trade.errors import Refusal

Data: TypeAlias = str | int | bool | list["Data"] | dict[str, "Data"] | None
Place: TypeAlias = tuple[str | int, ...]

# Beyond this a JSON number is no longer the same in every reader (RFC 8785, 3.2.2.3, IEEE 754).
MOST = 2**53 - 1
DEEPEST = 100  # levels; no kind of record comes near


class NotCanonical(Refusal):
    """A value that can't be written so that two sides build the same bytes."""

    template = "{place}: {reason} (got {value})."


def canonical(data: Data) -> bytes:
    """The canonical bytes of plain data, text normalised to NFC.

    data: text, whole numbers, true, false, none, lists, and mappings with ASCII keys, at most 100
    levels deep. Returns UTF-8 bytes. Raises NotCanonical for a float, a number beyond 2**53 - 1,
    a lone surrogate, a zero character or anything else. Source: RFC 8785; Unicode Annex 15.
    Example: ``canonical({"b": 1, "a": "é"})``.
    """
    return orjson.dumps(_checked(data, ("record",)), option=orjson.OPT_SORT_KEYS)


def _checked(value: Data, place: Place) -> Data:
    if isinstance(value, str):
        return _text(value, place)
    if value is None or isinstance(value, bool):
        return value
    if isinstance(value, int):
        if abs(value) > MOST:
            raise _refusal(place, "a number beyond 2**53 - 1", value)
        return value
    if len(place) > DEEPEST:
        raise _refusal(place[:3], "too many levels", DEEPEST)
    if isinstance(value, dict):
        return {_key(key, place): _checked(item, (*place, key)) for key, item in value.items()}
    if isinstance(value, list):
        return [_checked(item, (*place, index)) for index, item in enumerate(value)]
    raise _refusal(place, "only text and whole numbers", repr(value))


def _text(value: str, place: Place) -> str:
    if "\0" in value:  # JSON could hold it, a PostgreSQL text column can't
        raise _refusal(place, "a zero character", ascii(value))
    if value.isascii():
        return value
    try:
        value.encode()
    except UnicodeEncodeError:
        raise _refusal(place, "broken text", ascii(value)) from None
    return normalize("NFC", value)


def _key(key: str, place: Place) -> str:
    # ASCII keys sort the same by UTF-16 unit, code point and byte.
    if not isinstance(key, str) or not key.isascii():
        raise _refusal(place, "keys are plain ASCII", repr(key))
    return key


def _refusal(place: Place, reason: str, value: object) -> NotCanonical:
    """Example of a place: record.measured[1].value."""
    steps = (f"[{step}]" if isinstance(step, int) else f".{step}" for step in place)
    return NotCanonical(place="".join(steps).removeprefix("."), reason=reason, value=value)
