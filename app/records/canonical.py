"""Plain data -> bytes, the only serialiser of records (RFC 8785, JSON Canonicalization Scheme)."""

from typing import TypeAlias
from unicodedata import normalize

import rfc8785

from app.trade.errors import Refusal

Data: TypeAlias = str | int | bool | list["Data"] | dict[str, "Data"] | None

# Beyond this a JSON number is no longer the same in every reader (RFC 8785, 3.2.2.3, IEEE 754).
MOST = 2**53 - 1


class NotCanonical(Refusal):
    """A value that can't be written so that two sides build the same bytes."""

    template = "{place}: {reason} (got {value})."


def canonical(data: Data) -> bytes:
    """The canonical bytes of plain data, text normalised to NFC.

    data: text, whole numbers, true, false, none, lists, and mappings with ASCII keys. Returns
    UTF-8 bytes. Raises NotCanonical for a float, a number beyond 2**53 - 1, a lone surrogate, a
    zero character or anything else. Source: RFC 8785; Unicode Annex 15.
    Example: ``canonical({"b": 1, "a": "é"})``.
    """
    return rfc8785.dumps(_checked(data, "record"))


def _checked(value: Data, place: str) -> Data:
    if isinstance(value, dict):
        return {_key(key, place): _checked(item, f"{place}.{key}") for key, item in value.items()}
    if isinstance(value, list):
        return [_checked(item, f"{place}[{index}]") for index, item in enumerate(value)]
    if isinstance(value, str):
        return _text(value, place)
    if value is None or isinstance(value, bool):
        return value
    if isinstance(value, int):
        if abs(value) > MOST:
            raise NotCanonical(place=place, reason="a number beyond 2**53 - 1", value=value)
        return value
    raise NotCanonical(place=place, reason="only text and whole numbers", value=repr(value))


def _text(value: str, place: str) -> str:
    try:
        value.encode()
    except UnicodeEncodeError:
        raise NotCanonical(place=place, reason="broken text", value=ascii(value)) from None
    if "\0" in value:  # JSON could hold it, a PostgreSQL text column can't
        raise NotCanonical(place=place, reason="a zero character", value=ascii(value))
    return normalize("NFC", value)


def _key(key: str, place: str) -> str:
    # ASCII keys sort the same by UTF-16 unit, code point and byte.
    if not isinstance(key, str) or not key.isascii():
        raise NotCanonical(place=place, reason="keys are plain ASCII", value=repr(key))
    return key
