"""Civil days: adding months, and the day on which a record arrived at the site."""

from calendar import monthrange
from datetime import UTC, date, datetime, time
from functools import lru_cache
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError


def add_months(day: date, months: int) -> date:
    """The same day of the month some months later, pinned to that month's last day.

    day: a civil date; months: a whole number, 0 or more. Returns a civil date. Raises ValueError
    for fewer than 0 months. Always count from the original day: two steps of six months from
    31 August are not the same as twelve. Source: assessment rule 7; same as
    dateutil.relativedelta. Example: ``add_months(date(2024, 2, 29), 24) == date(2026, 2, 28)``.
    """
    if months < 0:
        raise ValueError(f"months must be 0 or more, not {months}")
    year, month0 = divmod(day.year * 12 + day.month - 1 + months, 12)
    last = monthrange(year, month0 + 1)[1]
    return date(year, month0 + 1, min(day.day, last))


@lru_cache(maxsize=256)
def zone_named(name: str) -> ZoneInfo:
    """The time zone with this IANA name.

    name: for example "America/Chicago". Returns a ZoneInfo. Raises ValueError for a name the time
    zone database does not know. Source: IANA time zone database, through zoneinfo.
    Example: ``zone_named("UTC")``.
    """
    try:
        return ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        raise ValueError(f"no time zone is called {name!r}") from error


def civil_day(moment: datetime, zone: str) -> date:
    """The calendar day at a place when something happened.

    moment: an aware time; zone: an IANA name. Returns a civil date. Raises ValueError for an
    unknown zone or a time without one. Source: IANA time zone database.
    Example: 03:00 UTC on 2 May is still 1 May in "America/Chicago".
    """
    if moment.tzinfo is None:
        raise ValueError(f"{moment.isoformat()} has no time zone")
    return moment.astimezone(zone_named(zone)).date()


def end_of_knowledge(known_on: date | datetime) -> datetime:
    """The last instant (UTC) that counts as known.

    known_on: an aware time, taken as it is, or a day, taken to its last microsecond in UTC.
    Returns an aware UTC time. Raises ValueError for a time without a zone. Source: assessment
    rule 1. Example: ``end_of_knowledge(date(2024, 3, 15))`` is 23:59:59.999999 UTC that day.
    """
    if isinstance(known_on, datetime):
        if known_on.tzinfo is None:
            raise ValueError(f"known on {known_on.isoformat()} has no time zone")
        return known_on.astimezone(UTC)
    return datetime.combine(known_on, time.max, UTC)
