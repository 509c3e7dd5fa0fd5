"""PURE. Which approved revision of a text is in force on a day, and what is still to come."""

from datetime import date

from app.curriculum.model import Module
from app.records.events import ContentRevised
from app.records.standing.settling import Settled


def approvals_of(settled: Settled, text: str) -> list[ContentRevised]:
    """The approvals of a text that hold, the oldest first; those without a hash are left out.

    text: a module's id, or POLICY. Example: ``approvals_of(settle(history), "pump-purge")``.
    """
    entries = settled.revisions.get(text, ())
    return sorted((e for e in entries if e.sha256), key=lambda e: e.revision)


def in_force(settled: Settled, text: str, on: date) -> ContentRevised | None:
    """The newest approval whose day has come; None before the first."""
    begun = [e for e in approvals_of(settled, text) if e.occurred_on <= on]
    return begun[-1] if begun else None


def text_hash(settled: Settled, module: Module, revision: int) -> str:
    """The hash of a module's text at a revision, as approved; the module's own if it is that one.

    module: as it is served now. Returns "" for a revision that was never approved here.
    """
    approved = (e.sha256 for e in approvals_of(settled, module.id) if e.revision == revision)
    own = module.content_hash if module.revision == revision else ""
    return next(approved, own)
