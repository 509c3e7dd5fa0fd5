"""Records against checkpoints that were kept elsewhere: was the history rewritten, and where?"""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlalchemy import Connection

from app.records.proof.checkpoint import Checkpoint, checkpoint_at
from app.records.proof.deep_check import first_wrong_deep
from app.records.proof.verifying import Verified


@dataclass(frozen=True, slots=True)
class Compared:
    """holds_to: records vouched for by a checkpoint; sentence: what is wrong, or None."""

    holds_to: int
    sentence: str | None


def compare(
    connection: Connection, verified: Verified, checkpoints: Iterable[Checkpoint]
) -> Compared:
    """Whether verified records are those of the checkpoints.

    Each record's hash covers all before it, so the last one's place in the old root is enough.
    """
    holds_to = 0
    for kept in sorted(checkpoints, key=lambda checkpoint: checkpoint.size):
        sentence = _what_differs(connection, verified, kept, holds_to)
        if sentence is not None:
            return Compared(holds_to, sentence)
        holds_to = max(holds_to, kept.size)
    return Compared(holds_to, None)


def _what_differs(
    connection: Connection, verified: Verified, kept: Checkpoint, holds_to: int
) -> str | None:
    if kept.size > verified.count:
        if verified.wrong is not None:
            return None  # the wrong record comes before, and is told already
        return (
            f"Records were cut off: the checkpoint counts {kept.size}, "
            f"here are only {verified.count}."
        )
    found = checkpoint_at(connection, kept.size)
    if found.root != kept.root:
        return _rewritten(connection, kept, holds_to)
    if found.origin != kept.origin:
        return f"The checkpoint is named {kept.origin}, these records {found.origin}."
    return None


def _rewritten(connection: Connection, kept: Checkpoint, holds_to: int) -> str:
    # The root is put together from kept nodes. If one of those is spoilt, nobody rewrote anything.
    spoilt = first_wrong_deep(connection, 1, kept.size)
    if spoilt is not None:
        return f"Record {spoilt.seq} ({spoilt.id}) is wrong: {spoilt.sentence}"
    return (
        f"The history was rewritten: between record {holds_to + 1} and record {kept.size} at least "
        "one is not what it was when the checkpoint was made, and all hashes after it were made "
        "anew."
    )
