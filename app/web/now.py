"""The one clock of the running app; tests set their own."""

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

from flask import current_app


def system_clock() -> datetime:
    """Return the present moment, aware, in UTC."""
    return datetime.now(UTC)


def now() -> datetime:
    """Return the app's present moment, aware, in UTC."""
    moment = current_app.extensions["lowport_clock"]()
    assert isinstance(moment, datetime)
    return moment


def today() -> date:
    """Return today's civil date where the firm works."""
    return now().astimezone(zone()).date()


def zone() -> ZoneInfo:
    """Return the firm's time zone."""
    found = current_app.extensions["lowport_settings"].tz
    assert isinstance(found, ZoneInfo)
    return found
