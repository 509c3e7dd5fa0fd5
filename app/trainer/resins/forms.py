"""The form of a resin's product data sheet: one field a line; what it does not say stays empty."""

from typing import Any

from flask_babel import gettext as _
from flask_babel import lazy_gettext
from flask_wtf import FlaskForm
from wtforms import Field, StringField
from wtforms.validators import DataRequired, Length, ValidationError

from app.trade.conditions import HIGHEST, LOWEST
from app.trade.mixing import DENSITY_A, DENSITY_B, PARTS_A, PARTS_B
from app.trade.port_pressure import PRESSURE
from app.trade.pot_life import GEL_TIME, REFERENCE, REFERENCE_C
from app.trade.ratio import TOLERANCE
from app.trade.viscosity import VISCOSITY
from app.trainer.forms import InRange, stripped
from app.web.forms import QuantityField

_text = {"filters": [stripped]}


class ResinForm(FlaskForm):
    """A product data sheet, line by line; what it does not say stays empty."""

    name = StringField(
        lazy_gettext("Name of the resin"),
        [DataRequired(lazy_gettext("Write the name on the can.")), Length(max=120)],
        **_text,
    )
    sheet = StringField(
        lazy_gettext("Product data sheet"),
        [DataRequired(lazy_gettext("Write the title and date of the sheet.")), Length(max=200)],
        **_text,
    )


class SheetForm(FlaskForm):
    """The lines of a data sheet that are still open."""


# name: label, quantity, unit of a bare number, bounds
_LINES: dict[str, tuple[Any, str, str | None, Any]] = {
    "parts_a": (lazy_gettext("Parts of A by volume"), "ratio", None, PARTS_A),
    "parts_b": (lazy_gettext("Parts of B by volume"), "ratio", None, PARTS_B),
    "ratio_tolerance": (lazy_gettext("Tolerance of the ratio"), "share", "%", TOLERANCE),
    "density_a_g_per_ml": (lazy_gettext("Density of A"), "density", None, DENSITY_A),
    "density_b_g_per_ml": (lazy_gettext("Density of B"), "density", None, DENSITY_B),
    "viscosity_pa_s": (lazy_gettext("Viscosity, mixed"), "viscosity", None, VISCOSITY),
    "pot_life_min": (lazy_gettext("Pot life"), "time", None, REFERENCE),
    "pot_life_reference_c": (
        lazy_gettext("Temperature the pot life is given at"),
        "temperature",
        None,
        REFERENCE_C,
    ),
    "gel_time_min": (lazy_gettext("Gel time"), "time", None, GEL_TIME),
    "min_temperature_c": (
        lazy_gettext("Lowest temperature to work at"),
        "temperature",
        None,
        LOWEST,
    ),
    "max_temperature_c": (
        lazy_gettext("Highest temperature to work at"),
        "temperature",
        None,
        HIGHEST,
    ),
    "max_pressure_mpa": (lazy_gettext("Highest injection pressure"), "pressure", None, PRESSURE),
}


def with_lines(base: type[FlaskForm], names: tuple[str, ...]) -> FlaskForm:
    """The form with one field for each of these lines of a data sheet."""

    class Lined(base):  # type: ignore[misc, valid-type]
        pass

    for name in names:
        label, quantity, unit, allowed = _LINES[name]
        checks = [InRange(allowed)]
        if quantity == "ratio":
            checks.insert(0, _one_side)
        setattr(Lined, name, QuantityField(label, quantity, unit, validators=checks))
    return Lined()


def _one_side(form: FlaskForm, field: Field) -> None:
    if ":" in (field.data or ""):
        raise ValidationError(_("Type this side alone, as in 2."))


def sheet_values(form: FlaskForm, names: tuple[str, ...]) -> dict[str, float]:
    """The lines that were filled in, in base units."""
    fields = {name: form[name] for name in names}
    return {
        name: float(field.quantity_data)
        for name, field in fields.items()
        if field.reading is not None
    }


def refuse_crossed(form: FlaskForm, known: dict[str, float | None]) -> bool:
    """Refuse a lowest temperature above the highest, beside the field that was typed."""
    low, high = known.get("min_temperature_c"), known.get("max_temperature_c")
    if low is None or high is None or low <= high:
        return False
    name = "max_temperature_c" if "max_temperature_c" in form else "min_temperature_c"
    form[name].errors = [*form[name].errors, _("The lowest lies above the highest. Look again.")]
    return True
