"""Supervised repairs and verified jobs, found by who signed them or by having come in late.

Columns only, through an index each, so that a list costs what stands in it and not what the firm
has recorded in all its years.
"""

from sqlalchemy import Connection, Select, select

from app.records.events import Practical, Use, Watched
from app.records.ledger.columns import LIGHT, light_event
from app.records.ledger.tables import IS_LATER, record

_WATCHED = select(*(record.c[name] for name in LIGHT)).where(
    record.c.kind.in_((Practical.kind, Use.kind))
)


def newest_signed(connection: Connection, trainer: str, most: int) -> list[Watched]:
    """The newest a trainer signed, by day and time of arrival, the newest first."""
    newest = (record.c.occurred_on.desc(), record.c.recorded_at.desc())
    return _read(connection, _WATCHED.where(record.c.trainer == trainer).order_by(*newest), most)


def came_later(connection: Connection, least_days: int) -> list[Watched]:
    """All that came in with a flag, or more than so many days late; in order of arrival.

    Some that are not that late may be among them: the site's days are not looked at here.
    """
    # East of UTC the site's next day begins on the same day by UTC; that is a day late, no more.
    later = _WATCHED.where(IS_LATER) if least_days > 0 else _WATCHED
    return _read(connection, later.order_by(record.c.seq))


def _read(connection: Connection, wanted: Select[tuple[str, ...]], most: int = 0) -> list[Watched]:
    rows = connection.execute(wanted.limit(most) if most else wanted)
    return [event for event in map(light_event, rows.mappings()) if isinstance(event, Watched)]
