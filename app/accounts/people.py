"""People: who they are, what they may do here, how they like their pages."""

import re
from collections.abc import Collection
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, delete, func, insert, select, update

from app.accounts.passwords import hash_password, refuse_weak
from app.accounts.tables import person, person_role
from app.ids import PersonId, new_id
from app.trade.errors import Refusal

ROLES = ("worker", "trainer", "safety-officer")
LANGUAGES = ("en", "es")
UNITS = ("metric", "us")
THEMES = ("auto", "light", "dark")

ERASED = "erased-"
"""What the sign-in name of somebody whose name was erased begins with; nobody signs in by it."""

_SIGN_IN_NAME = re.compile(r"[a-z0-9][a-z0-9._-]{1,58}[a-z0-9]")


class BadSignInName(Refusal):
    """The sign-in name has a form that can't be typed back reliably."""


class SignInNameTaken(Refusal):
    """Somebody else signs in with that name."""


class BadPrintedName(Refusal):
    """The printed name is empty or too long."""


class NameGone(Refusal):
    """A person whose name was erased gets no new name, password or way in."""


class NoRole(Refusal):
    """A person needs at least one known role."""


class LastOfficer(Refusal):
    """Without this person nobody could manage people any more."""


@dataclass(frozen=True, slots=True)
class Person:
    """A person as the pages need to know them."""

    id: PersonId
    sign_in_name: str
    name: str
    roles: frozenset[str]
    language: str
    units: str
    theme: str
    is_active: bool

    @property
    def is_erased(self) -> bool:
        """Whether the name was erased."""
        return self.sign_in_name.startswith(ERASED)

    def has_role(self, role: str) -> bool:
        """Say whether the person holds the role."""
        return role in self.roles


def add_person(
    connection: Connection,
    *,
    sign_in_name: str,
    printed_name: str,
    password: str,
    roles: Collection[str],
    language: str = "en",
    units: str = "us",
    person_id: str | None = None,
) -> PersonId:
    """Add a person and return their id; raise a Refusal whose sentence says what is wrong."""
    sign_in_name = sign_in_name.strip().lower()
    _refuse_bad_sign_in_name(connection, sign_in_name)
    refuse_weak(password, sign_in_name)
    new = PersonId(person_id or new_id())
    connection.execute(
        insert(person).values(
            id=new,
            sign_in_name=sign_in_name,
            printed_name=_printed_name(printed_name),
            password_hash=hash_password(password),
            language=language,
            units=units,
        )
    )
    set_roles(connection, new, roles)
    return new


def _refuse_bad_sign_in_name(connection: Connection, name: str) -> None:
    if not _SIGN_IN_NAME.fullmatch(name):
        raise BadSignInName(
            reason="A sign-in name has 3 to 60 letters a–z, digits, dots, dashes or underscores, "
            "and begins and ends with a letter or digit."
        )
    if name.startswith(ERASED) or connection.scalar(
        select(person.c.id).where(person.c.sign_in_name == name)
    ):
        raise SignInNameTaken(reason=f"Somebody already signs in as {name}. Choose another name.")


def _printed_name(text: str) -> str:
    name = " ".join(text.split())
    if not 2 <= len(name) <= 120:
        raise BadPrintedName(reason="Write the name as it should be printed, 2 to 120 characters.")
    return name


def set_roles(connection: Connection, person_id: str, roles: Collection[str]) -> None:
    """Give a person exactly these roles."""
    unknown = set(roles) - set(ROLES)
    if unknown or not roles:
        raise NoRole(reason=f"Choose at least one role of: {', '.join(ROLES)}.")
    if "safety-officer" not in roles:
        _refuse_last_officer(connection, person_id)
    connection.execute(delete(person_role).where(person_role.c.person_id == person_id))
    rows = [{"person_id": person_id, "role": role} for role in sorted(set(roles))]
    connection.execute(insert(person_role), rows)


def _refuse_last_officer(connection: Connection, person_id: str) -> None:
    officers = set(
        connection.scalars(
            select(person.c.id)
            .join(person_role, person_role.c.person_id == person.c.id)
            .where(person_role.c.role == "safety-officer", person.c.is_active)
        )
    )
    if officers == {person_id}:
        raise LastOfficer(reason="This is the only active safety officer. Add another one first.")


def _refuse_erased(connection: Connection, person_id: str) -> None:
    found = person_by_id(connection, person_id)
    if found is not None and found.is_erased:
        raise NameGone(reason="This person's name was erased. Add a new person instead.")


def set_active(connection: Connection, person_id: str, is_active: bool) -> None:
    """Let a person sign in, or no longer."""
    if is_active:
        _refuse_erased(connection, person_id)
    else:
        _refuse_last_officer(connection, person_id)
    connection.execute(update(person).where(person.c.id == person_id).values(is_active=is_active))


def set_printed_name(connection: Connection, person_id: str, printed_name: str) -> None:
    """Correct a printed name; what was signed keeps the name it was signed with."""
    name = _printed_name(printed_name)
    _refuse_erased(connection, person_id)
    connection.execute(update(person).where(person.c.id == person_id).values(printed_name=name))


def set_password(connection: Connection, person_id: str, password: str) -> None:
    """Give a person a new password; raise WeakPassword if it is one."""
    found = person_by_id(connection, person_id)
    _refuse_erased(connection, person_id)
    refuse_weak(password, found.sign_in_name if found else "")
    hashed = hash_password(password)
    connection.execute(update(person).where(person.c.id == person_id).values(password_hash=hashed))


def set_preference(connection: Connection, person_id: str, name: str, value: str) -> None:
    """Keep a person's choice of language, units or theme."""
    choices = {"language": LANGUAGES, "units": UNITS, "theme": THEMES}[name]
    if value not in choices:
        raise Refusal(reason=f"{value!r} is not a choice; choose one of: {', '.join(choices)}.")
    connection.execute(update(person).where(person.c.id == person_id).values({name: value}))


def person_by_id(connection: Connection, person_id: str) -> Person | None:
    """Return the person with this id, or None."""
    found = _people(connection, person.c.id == person_id)
    return found[0] if found else None


def all_people(connection: Connection) -> list[Person]:
    """Return everybody, by printed name."""
    return _people(connection)


def people_with_role(connection: Connection, role: str) -> list[Person]:
    """Return the active people who hold a role, by printed name."""
    return [p for p in _people(connection, person.c.is_active) if role in p.roles]


def count_people(connection: Connection) -> int:
    """Return how many people there are."""
    return int(connection.scalar(select(func.count()).select_from(person)) or 0)


def names(connection: Connection) -> dict[str, str]:
    """Return everybody's printed name by id."""
    return {
        r.id: r.printed_name for r in connection.execute(select(person.c.id, person.c.printed_name))
    }


def _people(connection: Connection, *conditions: Any) -> list[Person]:
    roles: dict[str, set[str]] = {}
    for row in connection.execute(select(person_role)):
        roles.setdefault(row.person_id, set()).add(row.role)
    query = select(person).where(*conditions).order_by(person.c.printed_name)
    return [
        Person(
            id=PersonId(row.id),
            sign_in_name=row.sign_in_name,
            name=row.printed_name,
            roles=frozenset(roles.get(row.id, ())),
            language=row.language,
            units=row.units,
            theme=row.theme,
            is_active=bool(row.is_active),
        )
        for row in connection.execute(query)
    ]
