"""The two clocks of every question: as of which day, and as known on which day."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time
from zoneinfo import ZoneInfo

from flask_babel import lazy_gettext
from wtforms.validators import Optional, ValidationError

from app.web.forms import AskForm, DayField
from app.web.now import today


@dataclass(frozen=True, slots=True)
class Clocks:
    """As of a day; known on a day (None: all that is recorded by now). Days are the firm's."""

    as_of: date
    known_on: date | None
    zone: ZoneInfo

    @property
    def known_at(self) -> datetime | None:
        """The last instant of the day it was known on, where the firm works; None: now."""
        if self.known_on is None:
            return None
        return datetime.combine(self.known_on, time.max, self.zone).astimezone(UTC)

    @property
    def query(self) -> dict[str, str]:
        """The clocks as they stand in an address."""
        known = {"known_on": self.known_on.isoformat()} if self.known_on else {}
        return {"as_of": self.as_of.isoformat(), **known}


class ClocksForm(AskForm):
    """As of which day, as known on which day."""

    as_of = DayField(lazy_gettext("As of"), [Optional()])
    known_on = DayField(lazy_gettext("As known on"), [Optional()])

    def validate_known_on(self, field: DayField) -> None:
        """Nobody knows yet what will be recorded."""
        if field.data is not None and field.data > today():
            raise ValidationError(
                lazy_gettext("This day is still to come. Leave it empty for now.")
            )
