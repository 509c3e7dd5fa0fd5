"""The officer's forms. Words are lazy, so that each request gets them in its own language."""

from typing import Any

from flask_babel import lazy_gettext as _l
from flask_wtf import FlaskForm
from wtforms import (
    BooleanField,
    HiddenField,
    PasswordField,
    RadioField,
    SelectField,
    StringField,
    TextAreaField,
)
from wtforms.validators import InputRequired, Length, Optional, Regexp, ValidationError

from app.ids import new_id
from app.web.forms import AskForm, DayField, TickListField, choice_list
from app.web.now import today
from app.web.two_clocks import ClocksForm

_ID = r"^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$"


class BoardForm(ClocksForm):
    """Which part of the board."""

    qualification = SelectField(_l("Qualification"))
    standing = SelectField(_l("Standing"))


class MissingForm(ClocksForm):
    """For which qualification."""

    qualification = SelectField(_l("Qualification"))


class DifferencesForm(ClocksForm):
    """Of which day, believed on which day, known on which day."""

    as_of = DayField(_l("Qualified on"), [Optional()])
    then = DayField(_l("Believed on"), [Optional()])
    known_on = DayField(_l("Known on"), [Optional()])

    def validate_then(self, field: DayField) -> None:
        """What was believed comes before what is known."""
        if field.data is None:
            return
        if field.data > today():
            raise ValidationError(_l("This day is still to come. Choose one gone by."))
        if self.known_on.data is not None and field.data > self.known_on.data:
            raise ValidationError(_l("Choose a day before the one in “known on”."))


class SearchForm(AskForm):
    """Part of a name."""

    name = StringField(_l("Name"), [Length(max=60)])


class SignedForm(FlaskForm):
    """What every signed form has: the id its record will have, the day, the password again.

    refused_for: the names of the refusals it met, see signing.py.
    """

    refused_for: tuple[str, ...] = ()
    record_id = HiddenField(
        _l("This form"),
        [Regexp(_ID, message=_l("This form is broken. Load the page again."))],
        default=new_id,
    )
    occurred_on = DayField(_l("From which day"), [InputRequired(_l("Choose the day."))])
    password = PasswordField(
        _l("Your password, to sign"),
        [InputRequired(_l("Type your password to sign.")), Length(max=200)],
    )


def reason_field(words: Any, *, is_needed: bool = True) -> TextAreaField:
    """A reason, which stands on the record."""
    needed = InputRequired(_l("Write the reason.")) if is_needed else Optional()
    too_long = _l("Use at most 1000 characters.")
    return TextAreaField(words, [needed, Length(max=1000, message=too_long)])


class DecideForm(SignedForm):
    """Grant, suspend, lift or revoke."""

    reason = reason_field(_l("Reason"))


class AuthoriseForm(SignedForm):
    """Let a trainer sign for a qualification, or no longer; ``change`` is "authorise:<id>"."""

    change = RadioField(
        _l("What changes"), [InputRequired(_l("Choose what changes."))], validate_choice=False
    )
    reason = reason_field(_l("Reason (needed to withdraw)"), is_needed=False)


class CounterForm(SignedForm):
    """Make a record void; propose: "yes" to put it to another officer."""

    propose = HiddenField()
    occurred_on = DayField(_l("Day"), [InputRequired(_l("Choose the day."))])
    reason = reason_field(_l("Why this record is wrong"))


class ConfirmForm(SignedForm):
    """Confirm what another officer proposed."""

    occurred_on = DayField(_l("Day"), [InputRequired(_l("Choose the day."))])


class MergeForm(SignedForm):
    """Two entries that are one person; propose: "yes" to put it to another officer."""

    propose = HiddenField()
    occurred_on = DayField(_l("Day"), [InputRequired(_l("Choose the day."))])
    kept = SelectField(_l("The entry to keep"), [InputRequired(_l("Choose an entry."))])
    merged = SelectField(
        _l("The same person, entered a second time"), [InputRequired(_l("Choose an entry."))]
    )
    reason = reason_field(_l("How you know they are one person"))


class EraseForm(SignedForm):
    """Erase a person's name."""

    occurred_on = DayField(_l("Day"), [InputRequired(_l("Choose the day."))])
    reason = reason_field(_l("Who asked for it, when, and by which right (without the name)"))
    is_sure = BooleanField(
        _l("I know that nobody can bring the name back"),
        [InputRequired(_l("Tick it if you are sure."))],
    )


def roles_field() -> TickListField:
    """The ticks for what a person does here."""
    return TickListField(
        _l("What they do here"),
        choices=choice_list(
            [
                ("worker", _l("Worker: learns, works, sees their own standing")),
                ("trainer", _l("Trainer: watches repairs and signs, where authorised")),
                ("safety-officer", _l("Safety officer: decides, manages people and records")),
            ]
        ),
    )


class PersonForm(FlaskForm):
    """A new person."""

    person_id = HiddenField(
        _l("This form"),
        [Regexp(_ID, message=_l("This form is broken. Load the page again."))],
        default=new_id,
    )
    printed_name = StringField(_l("Name, as it should be printed"), [Length(max=200)])
    sign_in_name = StringField(_l("Sign-in name"), [Length(max=200)])
    password = PasswordField(_l("First password"), [Length(max=300)])
    roles = roles_field()


class NameForm(FlaskForm):
    """A corrected printed name."""

    printed_name = StringField(_l("Name, as it should be printed"), [Length(max=200)])


class RolesForm(FlaskForm):
    """What a person does here."""

    roles = roles_field()


class ActiveForm(FlaskForm):
    """Whether a person may sign in."""

    is_active = BooleanField(_l("May sign in"))


class PasswordForm(FlaskForm):
    """A new password for somebody who lost theirs."""

    new_password = PasswordField(_l("New password"), [Length(max=300)])
    own_password = PasswordField(
        _l("Your own password"), [InputRequired(_l("Type your own password.")), Length(max=200)]
    )


class SessionsForm(FlaskForm):
    """Ends every session of a person."""

    is_sure = BooleanField(
        _l("Sign them out everywhere"), [InputRequired(_l("Tick it if you are sure."))]
    )
