"""Who may sign for which qualification as a trainer, on a day and as known then."""

from datetime import date, datetime

from sqlalchemy import Connection

from app.records.ledger.shared_records import shared_records
from app.records.standing.settling import settle


def may_sign_on(
    connection: Connection, as_of: date, known_on: date | datetime | None = None
) -> frozenset[tuple[str, str]]:
    """Pairs (person, qualification) of everybody authorised on a day; every id of the person.

    Example: ``("A1", "lead-injector") in may_sign_on(connection, date(2024, 3, 10))``.
    """
    about = shared_records(connection).about.values()
    settled = settle([event for listed in about for event in listed], known_on)
    held = {pair for pair in settled.authorisations if settled.may_sign(*pair, as_of)}
    ids = {*settled.same, *(person for person, _ in held)}
    return frozenset((p, name) for p in ids for who, name in held if settled.who(p) == who)
