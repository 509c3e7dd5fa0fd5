"""Form manners shared by the audiences: typed quantities and days, ticks, signing in."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from typing import Any

from flask_babel import lazy_gettext
from flask_wtf import FlaskForm
from wtforms import DateField, PasswordField, SelectMultipleField, StringField
from wtforms.fields.choices import SelectChoice
from wtforms.validators import InputRequired, Length, ValidationError
from wtforms.widgets import CheckboxInput, ListWidget

from app.trade.errors import Refusal
from app.trade.lengths import read_quantity
from app.web.telling import say, tell

EARLIEST = date(2000, 1, 1)


class QuantityField(StringField):
    """A typed quantity with its unit; ``quantity_data`` is the value in the base unit, exact."""

    def __init__(self, label: str, quantity: str, unit: str | None = None, **kwargs: Any) -> None:
        super().__init__(label, **kwargs)
        self.quantity = quantity
        self.unit = unit
        self.reading: Any = None

    @property
    def quantity_data(self) -> Any:
        """The value read, in the quantity's base unit, or None when the field was left empty."""
        return None if self.reading is None else self.reading.value

    def pre_validate(self, form: Any) -> None:
        """Read what was typed; the refusal's sentence stands beside the field."""
        self.reading = None
        text = (self.data or "").strip()
        if not text:
            return
        try:
            read = read_quantity(text, self.quantity, self.unit)
        except Refusal as refusal:
            raise ValidationError(tell(refusal)) from refusal
        self.reading = replace(read, said=say(read.said))


class DayField(DateField):
    """A day; a slip of the keyboard such as the year 26 is asked about."""

    def process_formdata(self, valuelist: list[str]) -> None:
        """Read the day; the sentence stands beside the field."""
        try:
            super().process_formdata(valuelist)
        except ValueError:
            raise ValueError(
                lazy_gettext("Write the day as year-month-day, like 2026-03-02.")
            ) from None

    def pre_validate(self, form: Any) -> None:
        """Refuse a day before anything could be on record."""
        if self.data is not None and self.data < EARLIEST:
            raise ValidationError(
                lazy_gettext("Check the year. Nothing before 2000 is on record here.")
            )


class TickListField(SelectMultipleField):
    """Several ticks of a list."""

    widget = ListWidget(prefix_label=False)
    option_widget = CheckboxInput()


def choice_list(pairs: Iterable[tuple[Any, Any]]) -> list[SelectChoice]:
    """Values and the words beside them, as WTForms wants a field's choices."""
    return [SelectChoice(value, words) for value, words in pairs]


class AskForm(FlaskForm):
    """A form that only asks: it stands in the address and needs no token."""

    class Meta:
        csrf = False


class SignInForm(FlaskForm):
    """Name and password."""

    sign_in_name = StringField(
        lazy_gettext("Sign-in name"),
        [InputRequired(lazy_gettext("Type your sign-in name.")), Length(max=60)],
    )
    password = PasswordField(
        lazy_gettext("Password"),
        [InputRequired(lazy_gettext("Type your password.")), Length(max=200)],
    )
