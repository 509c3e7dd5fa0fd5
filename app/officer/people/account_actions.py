"""What an officer changes about an account. In the caller's transaction; no Flask here."""

from collections.abc import Collection

from sqlalchemy import Connection

from app.accounts.people import set_active, set_password, set_printed_name, set_roles
from app.accounts.sessions import end_all_sessions
from app.accounts.sign_in import confirm_password
from app.officer.actions import Doer
from app.trade.errors import Refusal


def rename(connection: Connection, person: str, printed_name: str) -> None:
    """Correct the printed name. Raises BadPrintedName."""
    set_printed_name(connection, person, printed_name)


def give_roles(connection: Connection, person: str, roles: Collection[str]) -> None:
    """Give exactly these roles. Raises NoRole, LastOfficer."""
    set_roles(connection, person, roles)


def let_sign_in(connection: Connection, doer: Doer, person: str, may: bool) -> None:
    """Let a person sign in, or no longer, open sessions included. Raises LastOfficer."""
    set_active(connection, person, may)
    if not may:
        end_all_sessions(connection, person, doer.now)


def new_password(
    connection: Connection, doer: Doer, person: str, password: str, own_password: str
) -> Refusal | None:
    """Set a new password and end all sessions, on the officer's own password.

    Whoever sets a password could sign as that person; so it takes more than an open browser.
    Returns WrongSignIn or TooManyFailures; raises WeakPassword.
    """
    refusal = confirm_password(connection, doer.person_id, own_password, doer.now)
    if refusal is not None:
        return refusal
    set_password(connection, person, password)
    end_all_sessions(connection, person, doer.now)
    return None


def end_sessions(connection: Connection, doer: Doer, person: str) -> None:
    """End every session, for example when a phone is lost."""
    end_all_sessions(connection, person, doer.now)
