"""The form of the job card's options. Nothing has to be filled in: what is not, stays open."""

from collections.abc import Callable, Mapping
from datetime import time
from typing import Any

from flask_babel import lazy_gettext as _l
from flask_wtf import FlaskForm
from werkzeug.datastructures import MultiDict
from wtforms import RadioField, TextAreaField
from wtforms.validators import Length, ValidationError

from app.trade.errors import NotListed, OutOfRange, Refusal
from app.trade.typed_lines import MOST_LETTERS, read_gauges, read_line, read_lines
from app.trainer.card.fields import GROUPS, ISLANDS_CLOSE, START_AT, Asked, Chosen
from app.trainer.card.plan import NAMES, Plan
from app.trainer.card.words import tell_about_crack
from app.trainer.forms import ClockField, InRange
from app.web.forms import QuantityField, choice_list
from app.web.telling import tell


class LinesField(TextAreaField):
    """Typed lines or pairs; `value` is what was read, None when the field was left empty."""

    def __init__(
        self, label: Any, read: Callable[[str], Any], description: Any, **kwargs: Any
    ) -> None:
        super().__init__(label, [Length(max=MOST_LETTERS)], description=description, **kwargs)
        self.read = read
        self.value: Any = None

    def pre_validate(self, form: Any) -> None:
        """Read what was typed; the refusal's sentence stands beside the field."""
        self.value = None
        if not (self.data or "").strip():
            return
        try:
            self.value = self.read(self.data)
        except Refusal as refusal:
            raise ValidationError(tell(refusal)) from refusal


def _field(asked: Asked | Chosen) -> Any:
    if isinstance(asked, Chosen):
        return RadioField(
            asked.label,
            choices=choice_list([("", asked.none), *asked.options]),
            default="",
            description=asked.hint,
        )
    return QuantityField(
        asked.label,
        asked.quantity,
        asked.unit,
        validators=[InRange(asked.bounds)],
        description=asked.hint,
    )


class CardForm(FlaskForm):
    """What a job card needs beside the job and the data sheet."""

    start = ClockField(_l("Start of mixing"))
    path = LinesField(
        _l("The crack as a line"),
        read_line,
        _l("Points across, up: “in: 0, 0; 3, 36; 0, 72”. Left empty: a straight line."),
    )
    branches = LinesField(
        _l("Branches"), read_lines, _l("A line of text for each, from where it leaves the crack.")
    )
    islands = LinesField(
        _l("Strands around islands"),
        read_lines,
        _l("A line of text for each, from touch to touch."),
    )
    gauges = LinesField(
        _l("Widths gauged along the crack"),
        read_gauges,
        _l("Place, width: “0, 20 mil; 3 ft, 15 mil; 6 ft, 10 mil”."),
    )

    LINES = ("path", "branches", "islands", "gauges")

    def typed(self) -> dict[str, str]:
        """What was typed, field by field, as it is kept."""
        found: dict[str, str] = {}
        for field in self:
            raw = field.raw_data[0] if field.raw_data else field.data
            if field.name != "csrf_token" and isinstance(raw, str) and raw.strip():
                found[field.name] = raw.strip()
        return found

    def plan(self) -> Plan:
        """The values of a form that validates."""
        values: dict[str, Any] = {name: self[name].value for name in ("path", "gauges")}
        values |= {name: self[name].value or () for name in ("branches", "islands")}
        for field in self:
            if isinstance(field, QuantityField):
                read = field.quantity_data
                values[field.name] = None if read is None else float(read)
            elif isinstance(field, RadioField):
                values[field.name] = field.data or ""
        at = self.start.data
        values["start_min"] = at.hour * 60 + at.minute if isinstance(at, time) else None
        return Plan(**{name: value for name, value in values.items() if name in NAMES})

    def put_beside(self, refusal: Refusal) -> None:
        """Show a refusal of the crack as a whole beside the field it speaks of."""
        name = _FIELD_OF.get(type(refusal).__name__, "path")
        if isinstance(refusal, OutOfRange | NotListed):
            name = _FIELD_OF.get(refusal.name, name)
        if refusal.places.get("name") == "Island":
            name = "islands"
        self[name].errors = [*self[name].errors, tell_about_crack(refusal)]


# Refusals of the crack as a whole, by their own name or by the input they name.
_FIELD_OF = {
    "LengthsDiffer": "path",
    "crack_mm": "path",
    "NotAttached": "branches",
    "branches_mm": "branches",
    "islands_mm": "islands",
    "island_spacing_mm": "island_spacing_mm",
    "WidestNotKnown": "start_at",
    "GaugesDoNotSpan": "gauges",
    "stations_mm": "gauges",
    "widths_mm": "gauges",
    "width_mm": "gauges",
}

for _group in (*(fields for _, _, fields in GROUPS), (ISLANDS_CLOSE, START_AT)):
    for _asked in _group:
        setattr(CardForm, _asked.name, _field(_asked))


def form_of(typed: Mapping[str, str]) -> CardForm:
    """The form filled with what was typed before, read again."""
    form = CardForm(formdata=MultiDict(typed), meta={"csrf": False})
    form.validate()
    return form
