"""Decisions about texts: a revision approved by a safety officer who did not write it."""

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import timedelta

from app.records.days import civil_day
from app.records.deciding.acts import Act, Stamped, reason_given, settled_before
from app.records.deciding.refusals import (
    AuthorApproves,
    AuthorMissing,
    BeforeApproval,
    LabelNotNew,
    RevisionBackdated,
    RevisionNotNew,
    TextApproved,
    TooFarAhead,
)
from app.records.events import Change, ContentRevised, Event
from app.records.standing.settling import Settled

MOST_DAYS_AHEAD = 366


@dataclass(frozen=True, kw_only=True, slots=True)
class Text:
    """What is to be approved: a module's id or POLICY, its revision, hash, and its own label."""

    name: str
    revision: int
    sha256: str
    label: str = ""


@dataclass(frozen=True, kw_only=True, slots=True)
class Author:
    """Who wrote a text: a person here, or the name of a firm or project.

    approver_names: what the person approving is called here, so that they can't type themselves.
    """

    person: str = ""
    name: str = ""
    approver_names: tuple[str, ...] = ()


def decide_approve_text(
    history: Iterable[Event],
    act: Act,
    *,
    text: Text,
    change: Change,
    author: Author,
    reason: str,
) -> ContentRevised:
    """A revision approved, in force from the act's day, which may be up to a year ahead.

    Raises AuthorMissing, AuthorApproves, TextApproved (the same bytes), LabelNotNew (of the
    policy), RevisionNotNew (the number does not go up), RevisionBackdated, BeforeApproval,
    TooFarAhead, ReasonMissing.
    """
    settled = settled_before(history, act)
    _refuse_author(settled, act, author)
    _refuse_revision(settled, act, text)
    return ContentRevised(
        **_from_day(act),
        module=text.name,
        revision=text.revision,
        change=change,
        sha256=text.sha256,
        label=text.label,
        author=author.person,
        author_name="" if author.person else _folded(author.name),
        reason=reason_given(reason),
    )


def _refuse_author(settled: Settled, act: Act, author: Author) -> None:
    if not author.person and not author.name.strip():
        raise AuthorMissing
    if author.person and settled.who(author.person) == settled.who(act.by):
        raise AuthorApproves
    own = {_folded(name).casefold() for name in author.approver_names}
    if not author.person and _folded(author.name).casefold() in own:
        raise AuthorApproves


def _folded(text: str) -> str:
    return " ".join(unicodedata.normalize("NFKC", text).split())


def _refuse_revision(settled: Settled, act: Act, text: Text) -> None:
    earlier = settled.revisions.get(text.name, ())
    if any(event.sha256 == text.sha256 for event in earlier if text.sha256):
        raise TextApproved
    if text.label and any(event.label == text.label for event in earlier):
        raise LabelNotNew(label=text.label)
    newest = max(earlier, key=lambda e: e.revision, default=None)
    if newest is None:
        return
    if text.revision <= newest.revision:
        raise RevisionNotNew(revision=text.revision, newest=newest.revision)
    if act.occurred_on < newest.occurred_on:
        raise RevisionBackdated(revision=newest.revision, on=newest.occurred_on)


def _from_day(act: Act) -> Stamped:
    """As stamped(), but the day may be still to come, and can't be past: first it is approved."""
    today = civil_day(act.now, act.zone)
    if act.occurred_on < today:
        raise BeforeApproval(on=act.occurred_on)
    if act.occurred_on > today + timedelta(days=MOST_DAYS_AHEAD):
        raise TooFarAhead(on=act.occurred_on)
    return Stamped(
        id=act.id,
        occurred_on=act.occurred_on,
        zone=act.zone,
        recorded_at=act.now,
        recorded_by=act.by,
    )
