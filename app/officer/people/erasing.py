"""Erasing a name everywhere but in the closed records: accounts, papers, phones' exact bytes.

Records hold seals and ids, so nothing in them changes; words that somebody typed into a reason or
a remark can't be taken out, and are counted for the officer before. Runs while writing; no Flask.
"""

import re
from collections.abc import Iterable

from sqlalchemy import (
    ColumnElement,
    Connection,
    String,
    Table,
    Text,
    TextClause,
    func,
    select,
    text,
    update,
)

from app.accounts.erasing import erase_account_name, names_of
from app.database import db
from app.officer.actions import Doer, Signed, sign
from app.records.deciding import decisions as d
from app.records.events import Event
from app.records.ledger.door import Receipt, history_of
from app.records.ledger.tables import record
from app.records.standing.settling import settle
from app.trade.errors import Refusal
from app.workbook.sign_off_tables import phone_sign_off
from app.workbook.tables import observation

# What is closed, or holds no words of people.
_LEFT_ALONE = frozenset({"record", "kept_text", "person", "signed_name", "name_key"})
IN_ITS_PLACE = "[name erased / nombre borrado]"


class NameInReason(Refusal):
    """The reason would put the name into the records for good."""

    template = "Write the reason without the name: it stands on the record for good."


def erase(
    connection: Connection, doer: Doer, signed: Signed, person: str, reason: str
) -> Receipt | Refusal:
    """Erase a person's name, under all entries merged with theirs; returns a wrong password.

    Raises DeciderIsPerson, NameAlreadyErased, NameInReason, LastOfficer.
    """
    ids = same_person(connection, person)
    known = [name for one in ids for name in names_of(connection, one)]
    if any(_word(name).search(reason) for name in known):
        raise NameInReason

    def decide(history: list[Event], act: d.Act) -> Event:
        return d.decide_erase_name(history, act, person=person, reason=reason)

    receipt = sign(connection, doer, signed, (person,), decide)
    if isinstance(receipt, Receipt) and not receipt.is_repeat:
        for one in ids:
            _drop_signed_bytes(connection, one)
            erase_account_name(connection, one, doer.now)
        _erase_in_papers(connection, known)
    return receipt


def same_person(connection: Connection, person: str) -> list[str]:
    """The person's id and those merged with it."""
    settled = settle(history_of(connection, person))
    merged = [one for one in settled.same if settled.who(one) == settled.who(person)]
    return sorted({person, *merged})


def records_with_words(connection: Connection, person: str) -> list[str]:
    """The ids of records that hold one of the person's names in words, which can't be taken out."""
    found: dict[str, None] = {}
    for one in same_person(connection, person):
        for name in names_of(connection, one):
            wanted = select(record.c.id).where(_holds(connection, name)).order_by(record.c.seq)
            found.update(dict.fromkeys(connection.scalars(wanted)))
    return list(found)


def _holds(connection: Connection, name: str) -> ColumnElement[bool] | TextClause:
    needle = name.encode()
    if connection.dialect.name == "sqlite":
        return func.instr(record.c.body, needle) > 0
    return text("position(:needle in body) > 0").bindparams(needle=needle)


def _drop_signed_bytes(connection: Connection, person: str) -> None:
    """The exact bytes a phone signed hold the trainer's printed name; their hash stays."""
    own = select(observation.c.id).where(observation.c.trainer_id == person)
    where = phone_sign_off.c.observation_id.in_(own)
    connection.execute(update(phone_sign_off).where(where).values(signed_text=""))


def _erase_in_papers(connection: Connection, known: Iterable[str]) -> None:
    """Take the names out of every text that may be changed."""
    columns = [
        (table, column.name)
        for table in db.metadata.sorted_tables
        if table.name not in _LEFT_ALONE
        for column in table.columns
        if isinstance(column.type, String | Text) and not column.primary_key
    ]
    for name in known:
        for table, column in columns:
            _erase_in_column(connection, table, column, name)


def _erase_in_column(connection: Connection, table: Table, column: str, name: str) -> None:
    keys, word = list(table.primary_key.columns), _word(name)
    # Databases fold the case of plain letters only, so they look for a part that has no others.
    part = max(re.findall(r"[a-z]+", name.lower()), key=len, default="")
    holds = func.lower(table.c[column]).contains(part, autoescape=True)
    for *key, value in connection.execute(select(*keys, table.c[column]).where(holds)).all():
        cleared = word.sub(IN_ITS_PLACE, value)
        if cleared != value:
            where = [column == one for column, one in zip(keys, key, strict=True)]
            connection.execute(update(table).where(*where).values({table.c[column]: cleared}))


def _word(name: str) -> re.Pattern[str]:
    """The name as words of its own, whatever the capitals and blanks."""
    parts = r"\s+".join(re.escape(part) for part in name.split())
    return re.compile(rf"(?<!\w){parts}(?!\w)", re.IGNORECASE)
