"""Manifests, hashes and differences of texts. Outside check: hashlib, and sha256sum in officer."""

from hashlib import sha256

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.curriculum.bundles import files_named, hash_of, manifest_of
from app.curriculum.loading.text_files import laid_out
from app.curriculum.text_differences import Line, differences

paths = st.text(st.characters(codec="utf-8", exclude_categories=("C", "Zl", "Zp")), min_size=1)
texts = st.dictionaries(paths, st.binary(max_size=40), max_size=5)


@given(texts)
def test_a_manifest_names_every_file_with_its_hash(files):
    assert files_named(manifest_of(files)) == {p: sha256(d).hexdigest() for p, d in files.items()}


@given(texts, texts)
def test_the_hash_is_the_same_exactly_where_the_files_are(one, other):
    assert (hash_of(one) == hash_of(other)) is (one == other)


def test_what_is_no_manifest_is_refused():
    with pytest.raises(ValueError, match="no line of a manifest"):
        files_named(b"hello\n")


@pytest.mark.parametrize("path", ["../x", "/etc/x", "a/../../x"])
def test_no_file_is_laid_out_elsewhere(path):
    with pytest.raises(ValueError, match="leads out"), laid_out({path: b""}):
        pass


def test_a_change_is_shown_with_a_line_around_it():
    old = {"a": b"1\n2\n3\n4\n5\n6\n7\n", "same": b"x"}
    new = {"a": b"1\n2\n3\nfour\n5\n6\n7\n", "same": b"x", "b": b"new\n"}
    first, second = differences(old, new)
    assert first.lines == (
        Line("skipped"), Line("same", "3"), Line("gone", "4"), Line("new", "four"),
        Line("same", "5"), Line("skipped"),
    )  # fmt: skip
    assert (second.path, second.is_new, second.lines) == ("b", True, (Line("new", "new"),))
    assert differences(new, old)[1].is_gone


@given(st.lists(st.sampled_from("abc"), max_size=12), st.lists(st.sampled_from("abc"), max_size=12))
def test_nothing_that_changed_is_left_out(old, new):
    sides = [{"f": "\n".join(lines).encode()} for lines in (old, new)]
    lines = [line for file in differences(*sides) for line in file.lines]
    kept = sum(line.mark == "gone" for line in lines), sum(line.mark == "new" for line in lines)
    assert len(old) - kept[0] == len(new) - kept[1] or not lines
