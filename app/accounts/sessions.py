"""Sessions kept by the server, so that each of them can be ended.

The browser holds a random token; the table holds only its SHA-256.
"""

import hashlib
import secrets
from datetime import datetime, timedelta

from sqlalchemy import Connection, insert, select, update

from app.accounts.tables import browser_session, person
from app.ids import PersonId


def _hashed(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()


def open_session(connection: Connection, person_id: str, now: datetime) -> str:
    """Open a session and return its token, shown to the browser once and never stored."""
    token = secrets.token_urlsafe(32)
    connection.execute(
        insert(browser_session).values(
            token_hash=_hashed(token),
            person_id=person_id,
            opened_at=_naive(now),
            seen_at=_naive(now),
        )
    )
    return token


def session_person(
    connection: Connection, token: str, now: datetime, longest: timedelta, idle: timedelta
) -> PersonId | None:
    """Return whose session this is, or None when it is unknown, ended, too old or idle too long."""
    query = (
        select(browser_session, person.c.is_active)
        .join(person, person.c.id == browser_session.c.person_id)
        .where(browser_session.c.token_hash == _hashed(token))
    )
    row = connection.execute(query).first()
    if row is None or row.ended_at is not None or not row.is_active:
        return None
    moment = _naive(now)
    if moment - row.opened_at > longest or moment - row.seen_at > idle:
        return None
    return PersonId(row.person_id)


def touch_session(connection: Connection, token: str, now: datetime) -> None:
    """Note that the session was used."""
    where = browser_session.c.token_hash == _hashed(token)
    connection.execute(update(browser_session).where(where).values(seen_at=_naive(now)))


def last_seen_at(connection: Connection, token: str) -> datetime | None:
    """Return when the session was last noted as used (naive UTC)."""
    where = browser_session.c.token_hash == _hashed(token)
    return connection.scalar(select(browser_session.c.seen_at).where(where))


def end_session(connection: Connection, token: str, now: datetime) -> None:
    """End one session."""
    where = browser_session.c.token_hash == _hashed(token)
    connection.execute(update(browser_session).where(where).values(ended_at=_naive(now)))


def end_all_sessions(connection: Connection, person_id: str, now: datetime) -> None:
    """End every session of a person, for example when a phone is lost."""
    where = (browser_session.c.person_id == person_id) & browser_session.c.ended_at.is_(None)
    connection.execute(update(browser_session).where(where).values(ended_at=_naive(now)))


def _naive(moment: datetime) -> datetime:
    return moment.replace(tzinfo=None)
