"""Refusals, and what was read, in the page's language."""

import re

from flask_babel import gettext
from flask_babel import gettext as _

from app.trade.errors import Refusal
from app.trade.showing import mil_as_inches
from app.web.value_words import VALUE_WORDS, value_word
from app.web.who import choice

# Places of a refusal's sentence that hold words of ours; the others hold what somebody typed.
_OUR_WORDS = ("reason", "name", "other", "quantity", "units", "what", "phone", "here")
_ABOUT = re.compile(r"(-?\d.*) is about (-?\d.*)")
_RATIO = re.compile(r"([\d./ ]+) to ([\d./ ]+)")


def tell(refusal: Refusal) -> str:
    """Return the refusal's sentence in the page's language."""
    places = dict(refusal.places)
    for name in _OUR_WORDS:
        if isinstance(places.get(name), str):
            places[name] = _in_words(str(places[name]))
    return gettext(refusal.template).format(**places)


def say(said: str) -> str:
    """Return what was read, as lengths.Reading says it, in the page's language."""
    if found := _ABOUT.fullmatch(said):
        return _("%(typed)s is about %(read)s", typed=found[1], read=found[2])
    if found := _RATIO.fullmatch(said):
        return _("%(first)s to %(second)s", first=found[1], second=found[2])
    return said


def in_language(text: str) -> str:
    """Return quantities, as showing.show writes them, as the page's language writes them."""
    return mil_as_inches(text) if choice("language") == "es" else text


def names_in_words() -> dict[str, str]:
    """Return what our code has a name for, by that name: quantities, values of a data sheet."""
    return {**_quantities(), **{name: value_word(name) for name in VALUE_WORDS}}


def _in_words(text: str) -> str:
    if text in VALUE_WORDS or text.startswith(("resin_", "job_")):
        return value_word(text)
    return {**_quantities(), **_parts_of_records()}.get(text) or (gettext(text) if text else "")


def _parts_of_records() -> dict[str, str]:
    return {
        "person": _("person"),
        "job": _("job"),
        "qualification": _("qualification"),
        "trainer": _("trainer"),
        "day": _("day"),
        "pass": _("Pass"),
        "not-yet": _("Not yet"),
    }


def _quantities() -> dict[str, str]:
    """Quantities, and what stands for a unit, by the names the trade's code has for them."""
    return {
        "length": _("length"),
        "volume": _("volume"),
        "mass": _("weight"),
        "time": _("time"),
        "temperature": _("temperature"),
        "pressure": _("pressure"),
        "density": _("density"),
        "viscosity": _("viscosity"),
        "angle": _("angle"),
        "airflow": _("airflow"),
        "concentration": _("concentration"),
        "mass concentration": _("concentration by weight"),
        "flow": _("flow"),
        "rate": _("rate"),
        "share": _("share"),
        "ratio": _("ratio"),
        "count": _("count"),
        "parts": _("parts"),
        "none, a plain number": _("none, a plain number"),
        "Branch": _("Branch"),
        "Island": _("Island"),
    }
