"""Taking a person's name out of everything about accounts. Nothing here can be taken back."""

from datetime import datetime

from sqlalchemy import Connection, delete, select, update

from app.accounts.people import ERASED, set_active
from app.accounts.printed_names import forget_signed_names, names_signed_with
from app.accounts.sessions import end_all_sessions
from app.accounts.tables import device, person, sign_in_failure

# Said in both languages, since it stands where a name stood, whatever the page's language.
NAME_ERASED = "Name erased / Nombre borrado (id {id})"


def names_of(connection: Connection, person_id: str) -> list[str]:
    """Every name a person has here: printed now, and under signatures, the longest first."""
    now = connection.scalar(select(person.c.printed_name).where(person.c.id == person_id))
    found = {*names_signed_with(connection, person_id), *([now] if now else [])}
    return sorted(found, key=lambda name: (-len(name), name))


def erase_account_name(connection: Connection, person_id: str, now: datetime) -> None:
    """Close signing in and take out printed name, sign-in name, password, seals, phones' labels.

    Raises LastOfficer. The id, the roles and the choices of language and units stay.
    """
    set_active(connection, person_id, False)
    end_all_sessions(connection, person_id, now)
    signs_in_as = connection.scalar(select(person.c.sign_in_name).where(person.c.id == person_id))
    connection.execute(delete(sign_in_failure).where(sign_in_failure.c.sign_in_name == signs_in_as))
    connection.execute(
        update(person)
        .where(person.c.id == person_id)
        .values(
            printed_name=NAME_ERASED.format(id=person_id),
            sign_in_name=f"{ERASED}{person_id}",
            password_hash="",
        )
    )
    connection.execute(update(device).where(device.c.person_id == person_id).values(label="–"))
    forget_signed_names(connection, person_id)
