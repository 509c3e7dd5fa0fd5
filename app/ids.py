"""The kinds of identifier, so that one can't be passed for another, and how a new one is made."""

from typing import NewType

PersonId = NewType("PersonId", str)
ModuleId = NewType("ModuleId", str)
QualificationId = NewType("QualificationId", str)
RecordId = NewType("RecordId", str)
JobId = NewType("JobId", str)
ContentHash = NewType("ContentHash", str)


def new_id() -> str:
    """Return a new UUIDv7 as text: unique anywhere, and it sorts by the time it was made."""
    from uuid6 import uuid7

    return str(uuid7())
