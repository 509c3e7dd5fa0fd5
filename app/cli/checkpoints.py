"""Which checkpoints and keys a command was given, besides those in the instance folder."""

from collections.abc import Iterable
from pathlib import Path

from app.records.proof.checkpoint import Checkpoint, read_checkpoint
from app.records.proof.keeping import kept, read_signed
from app.records.proof.signing_key import (
    KEY_FILE,
    VerifyingKey,
    installation_key,
    read_verifying_key,
)


def known_keys(instance: Path, files: Iterable[Path]) -> list[VerifyingKey]:
    """The installation's own key, if there is one, and those in the files."""
    own = [installation_key(instance).verifying] if (instance / KEY_FILE).exists() else []
    return own + [read_verifying_key(path) for path in files]


def checkpoints_given(
    instance: Path, against: Iterable[str], keys: list[VerifyingKey]
) -> list[Checkpoint]:
    """The kept checkpoints, those in files, which must be signed, and those typed from paper."""
    found = kept(instance, keys)
    for given in against:
        path = Path(given)
        found.append(read_signed(path, keys) if path.is_file() else read_checkpoint(given))
    return found
