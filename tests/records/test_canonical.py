"""Canonical bytes against RFC 8785's own example, and what may not be written at all."""

import json
from functools import partial
from hashlib import sha256
from unicodedata import normalize

import pytest
import rfc8785
from hypothesis import given
from hypothesis import strategies as st

from app.records.ledger.canonical import DEEPEST, MOST, Data, NotCanonical, canonical
from app.records.ledger.chain import GENESIS, link


def test_the_strings_and_literals_of_rfc_8785():
    # RFC 8785, 3.2.2 and 3.2.3: the sample without its floats, which records do not hold.
    sample = {
        "string": "\u20ac$\u000f\u000aA'\u0042\u0022\u005c\\\u0022/",
        "literals": [None, True, False],
    }
    expected = '{"literals":[null,true,false],"string":"€$\\u000f\\nA\'B\\"\\\\\\\\\\"/"}'
    assert canonical(sample) == expected.encode()


TEXT = st.text('abc é\n"\\/€😀') | st.text(
    st.characters(exclude_categories=["Cs"], exclude_characters="\0")
)
PLAIN = st.recursive(
    st.none() | st.booleans() | st.integers(-MOST, MOST) | TEXT.map(partial(normalize, "NFC")),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.text("abcXYZ_09-", max_size=4), inner, max_size=4)
    ),
    max_leaves=12,
)


@given(PLAIN)
def test_the_bytes_are_those_of_a_library_for_rfc_8785(data):
    assert canonical(data) == rfc8785.dumps(data)


@given(PLAIN)
def test_without_floats_and_with_ascii_keys_it_is_sorted_json(data):
    # The standards note says so; the standard library's writer is the other side.
    other = json.dumps(data, sort_keys=True, ensure_ascii=False, separators=(",", ":"))
    assert canonical(data) == other.encode()


def test_text_is_written_in_nfc():
    assert canonical({"name": "Jose\u0301"}) == canonical({"name": "Jos\u00e9"})


@pytest.mark.parametrize(
    "value",
    [0.1, 1.0, float("nan"), 2**53, -(2**53), "\ud800", "a\0b", {1}, {"é": 1}, {1: 2}, b"x"],
)
def test_what_two_sides_would_write_differently_is_refused(value):
    with pytest.raises(NotCanonical, match="record"):
        canonical({"a": [value]})


def test_the_refusal_names_the_place():
    with pytest.raises(NotCanonical, match=r"record\.measured\[1\]\.value: .*0\.5"):
        canonical({"measured": [{"value": "0.5"}, {"value": 0.5}]})


def test_nesting_has_an_end():
    def nested(levels: int) -> Data:
        return [nested(levels - 1)] if levels else []

    assert canonical(nested(DEEPEST - 1)) == b"[" * DEEPEST + b"]" * DEEPEST
    with pytest.raises(NotCanonical, match="too many levels"):
        canonical(nested(DEEPEST))


def test_the_chain_is_the_leaf_hash_over_the_hash_before_and_the_bytes():
    # RFC 6962, 2.1: a leaf is SHA-256 over 0x00 and the data.
    first = link(GENESIS, b"abc")
    assert first == sha256(b"\x00" + bytes(32) + b"abc").digest()
    assert link(first, b"abc") != first
    with pytest.raises(ValueError, match="3"):
        link(b"abc", b"")
