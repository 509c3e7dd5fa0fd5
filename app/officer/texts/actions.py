"""Approving texts: the bytes are kept and the approval recorded, both or neither. No Flask here."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from hashlib import sha256
from uuid import NAMESPACE_URL, uuid5

from sqlalchemy import Connection

from app.officer.actions import Decide, Doer, Signed, sign
from app.officer.texts.pages import TextState, text_of
from app.records.deciding import decisions as d
from app.records.deciding.revising import Author
from app.records.events import Change
from app.records.ledger.door import Receipt
from app.records.texts.kept import keep_text
from app.trade.errors import Refusal


class OtherFiles(Refusal):
    """What is signed is not what this server has in its files."""

    template = (
        "The files on this server are not those you were shown. Load the page again. If that does "
        "not help, the servers have different files: give them all the same, and start them again."
    )


@dataclass(frozen=True, slots=True)
class Approval:
    """What the form says about a text."""

    sha256: str
    change: Change
    author: Author
    reason: str


def approval(state: TextState, asked: Approval) -> Decide:
    """The decision to approve what is in the files. Raises OtherFiles."""
    if asked.sha256 != state.file_hash:
        raise OtherFiles
    return lambda history, act: d.decide_approve_text(
        history,
        act,
        text=text_of(state),
        change=asked.change,
        author=asked.author,
        reason=asked.reason,
    )


def approve(
    connection: Connection, doer: Doer, signed: Signed, state: TextState, asked: Approval
) -> Receipt | Refusal:
    """Approve a waiting text; raises a Refusal, or returns that of a wrong password."""
    receipt = sign(connection, doer, signed, (), approval(state, asked))
    if isinstance(receipt, Receipt):
        keep_text(connection, state.files)
    return receipt


def approve_as_delivered(
    connection: Connection,
    doer: Doer,
    signed: Signed,
    states: Iterable[TextState],
    asked: Approval,
) -> Receipt | Refusal:
    """Approve every text that never was, each by a record of its own; the policy last.

    asked.sha256: the hash of all their hashes, see delivered_hash().
    """
    waiting = list(states)
    if asked.sha256 != delivered_hash(waiting):
        raise OtherFiles
    outcome: Receipt | Refusal = OtherFiles()
    for state in waiting:
        own_id = uuid5(NAMESPACE_URL, f"{signed.record_id}/{state.name}")
        own = replace(signed, record_id=str(own_id))
        outcome = approve(connection, doer, own, state, replace(asked, sha256=state.file_hash))
        if isinstance(outcome, Refusal):
            return outcome
    return outcome


def delivered_hash(states: Iterable[TextState]) -> str:
    """One hash for several texts, so that what is signed is what was shown."""
    return sha256(" ".join(state.file_hash for state in states).encode()).hexdigest()
