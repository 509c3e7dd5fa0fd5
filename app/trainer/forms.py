"""Fields the trainer's forms share: a day, a clock time, and bounds told in the reader's units."""

from datetime import time
from typing import Any

from flask_babel import gettext as _
from flask_babel import lazy_gettext
from flask_wtf import FlaskForm
from wtforms import DateField, PasswordField, StringField, TimeField
from wtforms.validators import DataRequired, InputRequired, Length, ValidationError

from app.trade.calculator import Input
from app.trade.errors import OutOfRange
from app.trainer.words import shown
from app.web.forms import QuantityField


class DayField(DateField):
    """A civil day; what cannot be one is kept and refused in plain words."""

    def process_formdata(self, valuelist: list[str]) -> None:
        """Read a day like 2026-03-02."""
        try:
            super().process_formdata(valuelist)
        except ValueError:
            raise ValueError(_("Choose a day, or type it like 2026-03-02.")) from None


class ClockField(TimeField):
    """A clock time at the site; `clock` is "14:05", or "" when left empty."""

    def process_formdata(self, valuelist: list[str]) -> None:
        """Read a time like 14:05; an empty field stays empty."""
        if not valuelist or not valuelist[0].strip():
            return
        try:
            super().process_formdata(valuelist)
        except ValueError:
            raise ValueError(_("Type a time like 14:05.")) from None

    @property
    def clock(self) -> str:
        """The time as it is kept."""
        return self.data.strftime("%H:%M") if isinstance(self.data, time) else ""


class InRange:
    """Refuse what the trade's functions would refuse, in the reader's units."""

    def __init__(self, allowed: Input) -> None:
        self.allowed = allowed

    def __call__(self, form: Any, field: QuantityField) -> None:
        """Say what was read and between which bounds it must lie."""
        if field.reading is None:
            return
        try:
            self.allowed.check(float(field.quantity_data))
        except OutOfRange:
            raise ValidationError(
                range_words(field.reading.said, self.allowed.low, self.allowed.high, field.quantity)
            ) from None


def range_words(said: str, low: float | None, high: float | None, quantity: str) -> str:
    """Return the sentence for a value outside its bounds."""
    if low is None and high is None:
        return _("We read %(said)s. That can't be worked with. Look again.", said=said)
    if high is None:
        least = shown(low, quantity)
        return _("We read %(said)s. It must be %(low)s or more.", said=said, low=least)
    if low is None:
        most = shown(high, quantity)
        return _("We read %(said)s. It must be %(high)s or less.", said=said, high=most)
    return _(
        "We read %(said)s. It must lie from %(low)s to %(high)s.",
        said=said,
        low=shown(low, quantity),
        high=shown(high, quantity),
    )


def stripped(text: str | None) -> str | None:
    """Filter of text fields: no blanks at the ends."""
    return text.strip() if text else text


class PasswordForm(FlaskForm):
    """The password again, as a signature."""

    password = PasswordField(
        lazy_gettext("Your password"),
        [InputRequired(lazy_gettext("Type your password again.")), Length(max=200)],
    )


class CounterForm(PasswordForm):
    """Why a record is void, and the password again."""

    reason = StringField(
        lazy_gettext("Reason"),
        [DataRequired(lazy_gettext("Write the reason.")), Length(max=400)],
        filters=[stripped],
    )
