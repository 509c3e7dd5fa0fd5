"""The job card in words: what each line is called, what is missing, what a verdict means."""

from typing import Any

from flask_babel import gettext as _
from flask_babel import lazy_gettext as _l

from app.trade.errors import NotListed, OutOfRange, Refusal
from app.trade.showing import show
from app.trainer.card.crack import GaugesDoNotSpan, LengthsDiffer
from app.trainer.card.line import Line
from app.trainer.forms import range_words
from app.trainer.repairs.batches import clock_text
from app.trainer.words import sheet_value, shown
from app.web.telling import in_language, tell
from app.web.who import choice

DAY = 1440


# Looked up line by line, so the words are kept lazy: only what is printed is translated.
_LABELS: dict[str, Any] = {
    "net": _l("The crack itself"),
    "waste": _l("Waste"),
    "hold_up": _l("Left in mixer and tube"),
    "samples": _l("Caught for samples"),
    "total": _l("Resin to have ready"),
    "total_so_far": _l("Total so far"),
    "a_volume": _l("A, by volume"),
    "b_volume": _l("B, by volume"),
    "a_mass": _l("A, by weight"),
    "b_mass": _l("B, by weight"),
    "seal_strip": _l("Strip"),
    "seal_collars": _l("Collars"),
    "seal_waste": _l("Waste of paste"),
    "seal_total": _l("Paste to mix"),
    "seal_so_far": _l("Paste so far"),
    "seal_each": _l("A and B, each"),
    "life_low": _l("Pot life, shortest to expect"),
    "life_high": _l("Pot life, longest to expect"),
    "gel_gate": _l("Gel time"),
    "batches": _l("Batches"),
    "mixer_stands": _l("Resin may stand in the mixer"),
    "batch_limit": _l("Largest batch"),
    "batch_count": _l("Batches"),
    "batch_each": _l("Each batch"),
    "batch_size": _l("Beside the batch tested"),
    "time_limit": _l("Time there is"),
    "reach": _l("Reach before gel"),
    "reach_straight": _l("Reach, straight front"),
    "reach_round": _l("Reach, round front"),
    "arrives_straight": _l("Next port, straight front"),
    "arrives_round": _l("Next port, round front"),
    "next_port": _l("Next port before gel"),
    "port_pressure": _l("Pressure for these ports"),
    "sheet_pressure": _l("Pressure for the resin"),
    "sheet_temperature": _l("Temperature for the resin"),
    "purge": _l("Purge, both hoses"),
    "flush_each": _l("Solvent for the flush, each side"),
    "flush": _l("Solvent, both sides"),
    "vapour": _l("Vapour, if all of it evaporates"),
    "vapour_share": _l("Of the lower explosive limit"),
    "respirator": _l("Respirator for grinding"),
    "collector": _l("Dust collector draws at least"),
}

_VERDICTS: dict[str, Any] = {
    "long-enough": _l("an hour or more, if given for 22 °C (72 °F)"),
    "too-short": _l("UNDER an hour, if given for 22 °C (72 °F)"),
    "cannot-tell": _l("cannot tell: ask the maker"),
    "reached": _l("reached, by both models"),
    "in-doubt": _l("IN DOUBT: by one model only"),
    "not-before-gel": _l("NOT before gel"),
    "never": _l("never: it gels first"),
    "normal": _l("within what such ports held"),
    "may-leak": _l("MAY LEAK: such ports leaked here"),
    "leaks": _l("LEAKS: above what such ports held"),
    "within": _l("within the data sheet"),
    "outside": _l("OUTSIDE the data sheet"),
    "not-larger": _l("not larger"),
    "larger-gels-sooner": _l("LARGER: gels sooner"),
    "none": _l("none by the table"),
    "apf-10": _l("protection factor 10 or more"),
    "table-does-not-apply": _l("the table does not apply: have the air assessed"),
}

_MISSING: dict[str, Any] = {
    "resin_temperature_c": _l("temperature of the resin"),
    "waste": _l("share for waste"),
    "mixing": _l("how it is mixed"),
    "placing_ml_per_min": _l("how fast you place it"),
    "tested_ml": _l("batch the pot life was measured on"),
    "pressure_mpa": _l("pressure at the port"),
    "port_opening_mm": _l("opening of the port"),
    "hose_diameter_mm": _l("hose, inside across"),
    "hose_length_mm": _l("length of the hose"),
    "mixer_diameter_mm": _l("mixer, inside across"),
    "mixer_length_mm": _l("length of the mixer"),
    "tube_diameter_mm": _l("tube, inside across"),
    "tube_length_mm": _l("length of the tube"),
    "mixers": _l("number of mixers"),
    "ratio_tests": _l("number of ratio tests"),
    "per_test_ml": _l("size of a ratio test"),
    "physical_samples": _l("number of samples kept"),
    "per_sample_ml": _l("size of a sample kept"),
    "seal_width_mm": _l("width of the seal"),
    "seal_thickness_mm": _l("thickness of the seal"),
    "seal_sides": _l("faces sealed"),
    "seal_waste": _l("waste of paste"),
    "collar_outer_mm": _l("collar, outside across"),
    "collar_foot_mm": _l("foot of the port"),
    "collar_height_mm": _l("height of the collar"),
    "grinding": _l("where the grinding is"),
    "grinding_min": _l("hours of grinding"),
    "controls": _l("whether the controls are in place"),
    "wheel_mm": _l("size of the wheel"),
    "solvent": _l("which solvent"),
    "space_ml": _l("air in the room"),
    "solvent_sheet": _l("the solvent's own safety data sheet"),
}

BAD = frozenset(
    {
        *("too-short", "cannot-tell", "in-doubt", "not-before-gel", "never", "may-leak", "leaks"),
        *("outside", "larger-gels-sooner", "table-does-not-apply"),
    }
)


def line_label(name: str) -> str:
    """What a line of the card is called."""
    return str(_LABELS[name])


def verdict_words(word: str) -> str:
    """What a verdict means, in a few words."""
    return str(_VERDICTS[word])


def value_words(line: Line) -> str:
    """The value of a line that is not open, in the reader's units."""
    return shown(line.value, line.quantity) if line.quantity else verdict_words(str(line.value))


def missing_words(name: str) -> str:
    """The words for something a line is open for."""
    return str(_MISSING[name]) if name in _MISSING else sheet_value(name)


def refused_words(line: Line) -> str:
    """Why a line stays open although nothing is missing."""
    refusal = line.refused
    if isinstance(refusal, OutOfRange):
        return _("these values lie outside what the model takes")
    return "" if refusal is None else tell(refusal)


def tell_about_crack(refusal: Refusal) -> str:
    """A refusal of the crack as a whole, with lengths in the reader's units."""
    if isinstance(refusal, LengthsDiffer | GaugesDoNotSpan):
        lengths = {name: shown(float(str(mm)), "length") for name, mm in refusal.places.items()}
        return _(refusal.template).format(**lengths)
    if isinstance(refusal, OutOfRange) and refusal.unit == "mm":
        said = shown(float(str(refusal.value)), "length")
        return range_words(said, refusal.low, refusal.high, "length")
    if isinstance(refusal, NotListed):
        return {
            "stations_mm": _("Each place must lie beyond the one before."),
            "widths_mm": _("Each place needs a width."),
        }.get(
            refusal.name,
            _("This line can't be drawn. Each point must lie over 1 mm from the one before."),
        )
    return tell(refusal)


def clock_words(minutes: float) -> str:
    """A clock time, cut to the minute before; past midnight says so."""
    days = int(minutes // DAY)
    written = clock_text(minutes)
    return _("%(clock)s, %(days)s d later", clock=written, days=days) if days else written


def in_both(length_mm: float) -> str:
    """A length in the reader's units, and in the other system's in brackets."""
    here = choice("units")
    other = "us" if here == "metric" else "metric"
    return f"{shown(length_mm, 'length')} ({in_language(show(length_mm, 'length', other))})"
