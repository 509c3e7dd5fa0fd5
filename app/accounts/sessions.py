"""Sessions kept by the server, so that each of them can be ended.

The browser holds a random token; the table holds only its SHA-256.
"""

import hashlib
import secrets
from datetime import datetime, timedelta

from sqlalchemy import Connection, insert, update

from app.accounts.people import Person
from app.accounts.tables import browser_session
from app.driver import fetched
from app.ids import PersonId

# Asked for every page, so it goes straight to the driver. One row for each of the person's roles.
_SESSION = """
SELECT s.opened_at, s.seen_at, s.ended_at,
       p.id, p.sign_in_name, p.printed_name, p.language, p.units, p.theme, p.is_active, r.role
FROM browser_session s
JOIN person p ON p.id = s.person_id
LEFT JOIN person_role r ON r.person_id = p.id
WHERE s.token_hash = ?
"""


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
) -> tuple[Person, datetime] | None:
    """Return whose session this is, and when it was last noted as used (naive UTC).

    None when it is unknown, ended, too old or idle too long, or its person may not sign in.
    """
    rows = fetched(connection, _SESSION, (_hashed(token),))
    if not rows:
        return None
    opened_at, seen_at, ended_at, *about, is_active, _ = rows[0]
    if ended_at is not None or not is_active:
        return None
    opened, seen, moment = _read(opened_at), _read(seen_at), _naive(now)
    if moment - opened > longest or moment - seen > idle:
        return None
    person_id, sign_in_name, name, language, units, theme = about
    person = Person(
        id=PersonId(person_id),
        sign_in_name=sign_in_name,
        name=name,
        roles=frozenset(row[-1] for row in rows if row[-1]),
        language=language,
        units=units,
        theme=theme,
        is_active=True,
    )
    return person, seen


def _read(moment: datetime | str) -> datetime:
    """A time as the driver gives it: SQLite keeps it as text."""
    return datetime.fromisoformat(moment) if isinstance(moment, str) else moment


def touch_session(connection: Connection, token: str, now: datetime) -> None:
    """Note that the session was used."""
    where = browser_session.c.token_hash == _hashed(token)
    connection.execute(update(browser_session).where(where).values(seen_at=_naive(now)))


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
