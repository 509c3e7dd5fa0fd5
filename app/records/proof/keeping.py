"""Signed checkpoints kept as files in the instance folder, one for each size."""

from collections.abc import Iterable
from pathlib import Path

from app.records.proof.checkpoint import Checkpoint, read_checkpoint
from app.records.proof.notes import opened
from app.records.proof.signing_key import VerifyingKey
from app.trade.errors import Refusal

FOLDER = "checkpoints"


class CheckpointRefused(Refusal):
    """A file that holds no checkpoint signed by a known key."""

    template = "{path}: {reason} (--key FILE names another public key to trust.)"


def keep(instance: Path, checkpoint: Checkpoint, note: str) -> Path:
    """Write the note; one of the same size that is there already stays."""
    path = instance / FOLDER / f"{checkpoint.size:012d}.txt"
    path.parent.mkdir(exist_ok=True)
    if not path.exists():
        path.write_text(note, encoding="utf-8")
    return path


def kept(instance: Path, keys: Iterable[VerifyingKey]) -> list[Checkpoint]:
    """All kept checkpoints. Raises CheckpointRefused."""
    known = list(keys)
    return [read_signed(path, known) for path in sorted((instance / FOLDER).glob("*.txt"))]


def read_signed(path: Path, keys: Iterable[VerifyingKey]) -> Checkpoint:
    """The checkpoint in a file with a signed note. Raises CheckpointRefused."""
    # Read as bytes: other line ends would be other text than what was signed.
    note = path.read_bytes().decode("utf-8", errors="replace")
    try:
        return read_checkpoint(opened(note, keys))
    except Refusal as problem:
        raise CheckpointRefused(path=path, reason=problem.sentence) from problem
