"""Form manners shared by the audiences: typed quantities, and refusals shown beside the field."""

from dataclasses import replace
from typing import Any

from flask_babel import lazy_gettext
from flask_wtf import FlaskForm
from wtforms import PasswordField, StringField
from wtforms.validators import InputRequired, Length, ValidationError

from app.trade.errors import Refusal
from app.trade.lengths import read_quantity
from app.web.telling import say, tell


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
