"""Signing in: one answer for every wrong pair, and a pause after too many of them."""

from datetime import datetime, timedelta
from functools import cache

from sqlalchemy import Connection, delete, func, insert, select, update

from app.accounts.passwords import hash_password, is_outdated, is_right
from app.accounts.tables import person, sign_in_failure
from app.ids import PersonId
from app.trade.errors import Refusal

MOST_FAILURES = 8
WINDOW = timedelta(minutes=15)


@cache
def _nobodys_hash() -> str:
    """Verified when nobody has the name, so that the answer takes as long as otherwise."""
    return hash_password("nobody has this password")


class WrongSignIn(Refusal):
    """The name and password do not belong together."""


class TooManyFailures(Refusal):
    """Too many wrong passwords in a short time."""


def check_sign_in(
    connection: Connection, sign_in_name: str, password: str, now: datetime
) -> PersonId | Refusal:
    """Return who signs in, or the refusal (returned, not raised, so that the failure is kept)."""
    name = sign_in_name.strip().lower()[:60]
    if _recent_failures(connection, name, now) >= MOST_FAILURES:
        return TooManyFailures(
            reason="Too many wrong passwords. Wait 15 minutes, or ask a safety officer."
        )
    row = connection.execute(select(person).where(person.c.sign_in_name == name)).first()
    hashed = row.password_hash if row else _nobodys_hash()
    if not is_right(password, hashed) or row is None or not row.is_active:
        values = {"sign_in_name": name, "failed_at": now.replace(tzinfo=None)}
        connection.execute(insert(sign_in_failure).values(values))
        return WrongSignIn(reason="The name and password don't belong together. Check both.")
    connection.execute(delete(sign_in_failure).where(sign_in_failure.c.sign_in_name == name))
    if is_outdated(hashed):
        values = {"password_hash": hash_password(password)}
        connection.execute(update(person).where(person.c.id == row.id).values(values))
    return PersonId(row.id)


def confirm_password(
    connection: Connection, person_id: str, password: str, now: datetime
) -> Refusal | None:
    """Check the password of somebody signed in, as at a signature; None when it is right."""
    name = connection.scalar(select(person.c.sign_in_name).where(person.c.id == person_id))
    found = check_sign_in(connection, name or "", password, now)
    if isinstance(found, TooManyFailures):
        return found
    if isinstance(found, Refusal):
        return WrongSignIn(reason="That is not your password. Nothing was signed. Try again.")
    return None


def _recent_failures(connection: Connection, name: str, now: datetime) -> int:
    since = (now - WINDOW).replace(tzinfo=None)
    query = (
        select(func.count())
        .select_from(sign_in_failure)
        .where(sign_in_failure.c.sign_in_name == name, sign_in_failure.c.failed_at > since)
    )
    return int(connection.scalar(query) or 0)
