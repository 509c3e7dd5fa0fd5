"""The forms of a supervised repair: who and what, one item, log, batch, judgement."""

import uuid
from collections.abc import Mapping
from typing import Any

from flask_babel import gettext as _
from flask_babel import lazy_gettext
from flask_wtf import FlaskForm
from wtforms import HiddenField, RadioField, SelectField, StringField, TextAreaField
from wtforms.validators import InputRequired, Length, ValidationError

from app.curriculum.model import ChecklistItem
from app.curriculum.scoring import JUDGEMENTS, OUTCOMES
from app.trade.injection_order import PORT
from app.trade.port_pressure import PRESSURE
from app.trade.pot_life import TEMPERATURE
from app.trade.units import UNITS
from app.trainer.forms import ClockField, DayField, InRange, PasswordForm, stripped
from app.web.forms import QuantityField, choice_list
from app.web.judged_words import judgements
from app.workbook.observations import Typed


class WhoForm(FlaskForm):
    """Whom the trainer watches, for which qualification, on which day."""

    person = SelectField(lazy_gettext("Person"), [InputRequired(lazy_gettext("Choose a person."))])
    qualification = RadioField(
        lazy_gettext("Qualification"), [InputRequired(lazy_gettext("Choose a qualification."))]
    )
    occurred_on = DayField(
        lazy_gettext("Day of the work"),
        [InputRequired(lazy_gettext("Choose the day the work was done."))],
    )


class UseForm(WhoForm, PasswordForm):
    """A verified job: the same, signed. The record's id is made with the form: sent twice, once."""

    record_id = HiddenField()

    def validate_record_id(self, field: HiddenField) -> None:
        """Only an id as we make them."""
        try:
            uuid.UUID(field.data or "")
        except ValueError:
            raise ValidationError(_("Load the page again and send it once more.")) from None


class ItemForm(FlaskForm):
    """One item of a checklist. The outcome comes from the button pressed; "" saves the numbers."""

    outcome = StringField(lazy_gettext("How it went"))
    reason = StringField(
        lazy_gettext("Reason, if it does not apply"), [Length(max=400)], filters=[stripped]
    )

    def validate_outcome(self, field: StringField) -> None:
        """One of the words of the scale, or nothing yet."""
        if field.data and field.data not in OUTCOMES:
            raise ValidationError(_("Choose one of the buttons."))


def item_form(item: ChecklistItem, language: str, **known: Any) -> ItemForm:
    """The form of one item, with a field for each thing that is measured."""

    class Measured(ItemForm):
        pass

    for measure in item.measures:
        field = QuantityField(
            measure.label.in_language(language),
            measure.quantity,
            measure.unit,
            description=_unit_hint(measure.unit),
        )
        setattr(Measured, measure.id, field)
    return Measured(**known)


def _unit_hint(unit: str) -> str:
    sign = UNITS[unit].sign if unit in UNITS else ""
    if not sign:
        return _("A number.")
    return _("A number alone is taken as %(unit)s.", unit=sign)


def typed_values(form: FlaskForm, names: tuple[str, ...], to_text: Any) -> dict[str, Typed]:
    """What was typed and could be read, by measure."""
    fields = {name: form[name] for name in names}
    return {
        name: Typed(field.data.strip(), to_text(field.quantity_data))
        for name, field in fields.items()
        if field.reading is not None
    }


def refuse_incomplete(form: ItemForm, item: ChecklistItem, has_log: bool) -> bool:
    """Refuse an outcome that needs more than was given, beside the field; say whether it was."""
    outcome, is_wrong = form.outcome.data, False
    if outcome in ("done", "done-when-prompted"):
        for measure in item.measures:
            if form[measure.id].reading is None and not form[measure.id].errors:
                form[measure.id].errors = [_("Type what was measured.")]
                is_wrong = True
        if item.log == "ports" and not has_log:
            form.outcome.errors = [_("The port log is empty. Write the ports down first.")]
            is_wrong = True
    if outcome == "does-not-apply" and item.critical and not form.reason.data:
        form.reason.errors = [_("Write why this critical step does not apply.")]
        is_wrong = True
    return is_wrong


class PortForm(FlaskForm):
    """One line of the port log."""

    port = QuantityField(
        lazy_gettext("Port"),
        "count",
        validators=[InputRequired(lazy_gettext("Which port?")), InRange(PORT)],
    )
    opened_at = ClockField(
        lazy_gettext("Opened at"), [InputRequired(lazy_gettext("When was it opened?"))]
    )
    next_showed_at = ClockField(lazy_gettext("Resin showed at the next port at"))
    pressure = QuantityField(
        lazy_gettext("Pressure at the port"),
        "pressure",
        "psi",
        validators=[InRange(PRESSURE)],
        description=lazy_gettext("A number alone is taken as psi."),
    )
    note = StringField(lazy_gettext("Note"), [Length(max=150)], filters=[stripped])

    def validate_next_showed_at(self, field: ClockField) -> None:
        """Resin cannot show before the port is opened; past midnight it can seem to."""
        if not field.clock or not self.opened_at.clock:
            return
        minutes = [60 * t.data.hour + t.data.minute for t in (self.opened_at, field)]
        if (minutes[1] - minutes[0]) % 1440 > 720:
            raise ValidationError(
                _("That is before the port was opened at %(at)s.", at=self.opened_at.clock)
            )


class BatchForm(FlaskForm):
    """When A met B, and how warm the resin was."""

    mixed_at = ClockField(
        lazy_gettext("A met B at"), [InputRequired(lazy_gettext("When did A meet B?"))]
    )
    resin_temperature = QuantityField(
        lazy_gettext("Temperature of the resin"),
        "temperature",
        validators=[
            InputRequired(lazy_gettext("How warm is the resin?")),
            InRange(TEMPERATURE),
        ],
    )


class JudgementForm(FlaskForm):
    """The overall judgement and the remarks."""

    overall = RadioField(
        lazy_gettext("Would you let this person do it tomorrow without you?"),
        [InputRequired(lazy_gettext("Choose one."))],
    )
    remarks = TextAreaField(lazy_gettext("Remarks"), [Length(max=2000)], filters=[stripped])


def judgement_form(known: Mapping[str, str]) -> JudgementForm:
    """The form with its scale, lowest first."""
    form = JudgementForm(**known)
    names = judgements()
    form.overall.choices = choice_list([(name, names[name]) for name in JUDGEMENTS])
    return form
