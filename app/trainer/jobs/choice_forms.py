"""The form of “Is injection right?”, sent by GET: it changes nothing."""

from flask_babel import lazy_gettext as _l
from flask_wtf import FlaskForm
from wtforms import RadioField
from wtforms.validators import InputRequired

from app.trade.crack_width import GAUGE_WIDTH
from app.trade.repair_choice import TEMPERATURE
from app.trainer.forms import InRange
from app.web.forms import QuantityField, choice_list

_CHOOSE = _l("Choose one.")


class ChoiceForm(FlaskForm):
    """What the published charts ask of a crack before they name a repair."""

    class Meta:
        csrf = False

    movement = RadioField(
        _l("Does the crack move?"),
        [InputRequired(_CHOOSE)],
        choices=choice_list(
            [("dormant", _l("No, it is dormant")), ("moving", _l("Yes, it still moves"))]
        ),
        description=_l("Measured over time, not guessed. Its cause has to be gone too."),
    )
    pattern = RadioField(
        _l("One crack or a net?"),
        [InputRequired(_CHOOSE)],
        choices=choice_list(
            [("isolated", _l("One by itself")), ("pattern", _l("A net of cracks"))]
        ),
    )
    strength = RadioField(
        _l("Must it carry load again?"),
        [InputRequired(_CHOOSE)],
        choices=choice_list([("yes", _l("Yes")), ("no", _l("No"))]),
    )
    water = RadioField(
        _l("Water"),
        [InputRequired(_CHOOSE)],
        choices=choice_list(
            [
                ("dry", _l("Dry")),
                ("damp", _l("Damp")),
                ("wet", _l("Wet")),
                ("leaking", _l("Leaking, can't be dried")),
            ]
        ),
    )
    member = RadioField(
        _l("What the member is"),
        [InputRequired(_CHOOSE)],
        choices=choice_list(
            [
                ("reinforced", _l("Reinforced concrete")),
                ("prestressed", _l("Prestressed concrete")),
                ("plain", _l("Plain concrete")),
                ("not-concrete", _l("Not concrete")),
            ]
        ),
    )
    width = QuantityField(
        _l("Width at the gauge"),
        "length",
        validators=[InputRequired(_l("Measure the width.")), InRange(GAUGE_WIDTH)],
        description=_l("As in 15 mil or 0.4 mm."),
    )
    temperature = QuantityField(
        _l("Temperature of the member"),
        "temperature",
        validators=[InputRequired(_l("Measure the temperature.")), InRange(TEMPERATURE)],
        description=_l("As in 60 °F or 16 °C."),
    )
