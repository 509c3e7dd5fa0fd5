"""The form of a job, and of what its amounts are worked out with."""

from typing import Any

from flask_babel import gettext as _
from flask_babel import lazy_gettext
from flask_wtf import FlaskForm
from wtforms import BooleanField, RadioField, SelectField, StringField, TextAreaField
from wtforms.validators import DataRequired, InputRequired, Length, ValidationError

from app.trade.crack import DEPTH, LENGTH, THICKNESS, WIDTH
from app.trade.pot_life import TEMPERATURE
from app.trade.resin import HOLD_UP, SAMPLES, WASTE
from app.trade.spacing import SPACING
from app.trainer.forms import InRange, stripped
from app.web.crew.sets import refuse_unknown_set
from app.web.forms import QuantityField, choice_list

OWN_FIGURE = "none"

_text = {"filters": [stripped]}


class JobForm(FlaskForm):
    """One job: the member, the crack, the spacing somebody chose, the resin."""

    site = StringField(
        lazy_gettext("Site"),
        [DataRequired(lazy_gettext("Write where the job is.")), Length(max=120)],
        **_text,
    )
    structure = StringField(
        lazy_gettext("Structure"),
        [DataRequired(lazy_gettext("Write which wall, slab or beam it is.")), Length(max=120)],
        **_text,
    )
    orientation = RadioField(
        lazy_gettext("How the crack runs"),
        [InputRequired(lazy_gettext("Choose how the crack runs."))],
        choices=choice_list(
            [
                ("vertical", lazy_gettext("Up a wall")),
                ("horizontal", lazy_gettext("Along a wall, or on a floor")),
                ("overhead", lazy_gettext("On an underside")),
            ]
        ),
    )
    access = RadioField(
        lazy_gettext("Sides you can reach"),
        [InputRequired(lazy_gettext("Choose the sides you can reach."))],
        choices=choice_list(
            [("one", lazy_gettext("One side")), ("both", lazy_gettext("Both sides"))]
        ),
    )
    length = QuantityField(
        lazy_gettext("Length of the crack"),
        "length",
        validators=[
            InputRequired(lazy_gettext("Measure the length along the crack.")),
            InRange(LENGTH),
        ],
    )
    thickness = QuantityField(
        lazy_gettext("Thickness of the member"),
        "length",
        validators=[
            InputRequired(lazy_gettext("Measure the member, or take it off the drawing.")),
            InRange(THICKNESS),
        ],
    )
    is_full = BooleanField(lazy_gettext("The crack goes through the full thickness"))
    depth = QuantityField(
        lazy_gettext("Depth of the crack, if not full"), "length", validators=[InRange(DEPTH)]
    )
    width = QuantityField(
        lazy_gettext("Width of the crack"),
        "length",
        validators=[InputRequired(lazy_gettext("Measure the width.")), InRange(WIDTH)],
    )
    port_kind = RadioField(
        lazy_gettext("Ports"),
        choices=choice_list(
            [
                ("surface", lazy_gettext("Bonded on the surface")),
                ("drilled", lazy_gettext("Set in drilled holes")),
            ]
        ),
        default="surface",
    )
    spacing_rule = RadioField(
        lazy_gettext("Which rule the spacing follows"),
        [InputRequired(lazy_gettext("Choose the rule, or “none of these”."))],
    )
    spacing = QuantityField(
        lazy_gettext("Spacing of the ports"),
        "length",
        validators=[
            InputRequired(lazy_gettext("Type the spacing somebody chose.")),
            InRange(SPACING),
        ],
    )
    spacing_chosen_by = StringField(
        lazy_gettext("Who chose it"),
        [
            DataRequired(lazy_gettext("Write the engineer's name, or the data sheet.")),
            Length(max=120),
        ],
        **_text,
    )
    resin = SelectField(lazy_gettext("Resin"), [InputRequired(lazy_gettext("Choose the resin."))])
    crew_set = RadioField(lazy_gettext("Which hands the job needs"), validate_choice=False)
    note = TextAreaField(lazy_gettext("Note"), [Length(max=2000)], **_text)

    GEOMETRY = ("thickness", "is_full", "depth")

    def validate_crew_set(self, field: RadioField) -> None:
        """A set that the rules in force know."""
        refuse_unknown_set(field)

    def validate_depth(self, field: QuantityField) -> None:
        """The depth is measured, or the whole thickness; never assumed, never more."""
        if self.is_full.data:
            if field.reading is not None:
                raise ValidationError(
                    _("Clear this, or take the tick for the full thickness away.")
                )
            return
        if not (field.data or "").strip():
            raise ValidationError(_("How deep is it? Measure, or tick the full thickness."))
        both = field.reading is not None and self.thickness.reading is not None
        if both and field.quantity_data > self.thickness.quantity_data:
            raise ValidationError(
                _(
                    "We read %(said)s. That is more than the member is thick.",
                    said=field.reading.said,
                )
            )

    def depth_mm(self) -> Any:
        """The depth to fill, exact; None while it is not known."""
        return self.thickness.quantity_data if self.is_full.data else self.depth.quantity_data

    def knows_member(self) -> bool:
        """Whether thickness and depth could be read, so that the rules can be shown."""
        is_wrong = any(self[name].errors for name in self.GEOMETRY)
        return not is_wrong and self.thickness.reading is not None and self.depth_mm() is not None


class LookForm(FlaskForm):
    """What the amounts on a job's page are worked out with; sent by GET, changes nothing."""

    class Meta:
        csrf = False

    waste = QuantityField(
        lazy_gettext("Waste, as a share of the crack"),
        "share",
        validators=[InRange(WASTE)],
        unit="%",
    )
    hold_up = QuantityField(
        lazy_gettext("Left in mixer and tube"), "volume", "ml", validators=[InRange(HOLD_UP)]
    )
    samples = QuantityField(
        lazy_gettext("Caught for samples"), "volume", "ml", validators=[InRange(SAMPLES)]
    )
    temperature = QuantityField(
        lazy_gettext("Temperature of the resin"),
        "temperature",
        validators=[InRange(TEMPERATURE)],
    )
