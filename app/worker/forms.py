"""The forms of a quiz question; their words are made at request time, in the page's language."""

from flask_babel import gettext as _
from flask_babel import lazy_gettext
from flask_wtf import FlaskForm
from wtforms import RadioField, StringField
from wtforms.validators import InputRequired

from app.curriculum.questions.items import ComputedQuestion, Option
from app.trade.units import unit_named
from app.web.forms import choice_list


class ChoiceForm(FlaskForm):
    """One answer to choose; an option nobody offered is refused where the answer is marked."""

    option = RadioField(
        lazy_gettext("Your answer"),
        [InputRequired(lazy_gettext("Choose one answer."))],
        validate_choice=False,
    )


class TypedForm(FlaskForm):
    """One quantity to type; it is read where the answer is marked."""

    answer = StringField(lazy_gettext("Your answer"))


def choice_form(options: tuple[Option, ...], language: str) -> ChoiceForm:
    """Return the form with these options, in this order."""
    form = ChoiceForm()
    form.option.choices = choice_list(
        [(option.id, option.text.in_language(language)) for option in options]
    )
    return form


def typed_hint(question: ComputedQuestion) -> str:
    """Say how to type this answer, without giving it away."""
    unit = unit_named(question.answer.unit)
    if question.answer.quantity == "count":
        return _("Type a whole number.")
    if question.answer.quantity == "ratio" or not unit.sign:
        return _("Type a number, or two with a colon between them, as in 2:1.")
    return _(
        "Type a number and its unit, metric or US. A number alone is taken as %(unit)s.",
        unit=unit.sign,
    )
