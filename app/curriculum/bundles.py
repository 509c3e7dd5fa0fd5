"""PURE. A text under control as its files' bytes: a module's, or the policy's. And its hash.

The manifest names each file with its SHA-256, in the lines that ``sha256sum --check`` reads; the
text's hash is the SHA-256 of the manifest. So one hash stands for every byte a worker is shown.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from hashlib import sha256

POLICY = "policy"
"""What the qualification policy is called among the texts; no module may have this name."""

_LINE = re.compile(r"([0-9a-f]{64})  (.+)")


def manifest_of(files: Mapping[str, bytes]) -> bytes:
    """The manifest of files by their paths within the content folder, in the order of the paths.

    Source of the form: GNU coreutils, sha256sum. Example: ``manifest_of({"a.txt": b"x"})``.
    """
    lines = (f"{sha256(data).hexdigest()}  {path}\n" for path, data in sorted(files.items()))
    return "".join(lines).encode()


def hash_of(files: Mapping[str, bytes]) -> str:
    """The text's hash, 64 hex digits: any byte, name or missing file makes another one."""
    return sha256(manifest_of(files)).hexdigest()


def files_named(manifest: bytes) -> dict[str, str]:
    """Path -> SHA-256 of the file. Raises ValueError for what is no manifest."""
    found: dict[str, str] = {}
    for line in manifest.decode().splitlines():
        named = _LINE.fullmatch(line)
        if named is None:
            raise ValueError(f"{line!r:.80} is no line of a manifest")
        found[named[2]] = named[1]
    return found
