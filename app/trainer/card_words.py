"""The job card in words: what each line is called, what is missing, what a verdict means."""

from flask_babel import gettext as _

from app.trade.errors import NotListed, OutOfRange, Refusal
from app.trade.showing import show
from app.trainer.batches import clock_text
from app.trainer.card_crack import GaugesDoNotSpan, LengthsDiffer
from app.trainer.card_line import Line
from app.trainer.forms import range_words
from app.trainer.words import sheet_value, shown
from app.web.telling import tell
from app.web.who import choice

DAY = 1440


def line_label(name: str) -> str:
    """What a line of the card is called."""
    return {
        "net": _("The crack itself"),
        "waste": _("Waste"),
        "hold_up": _("Left in mixer and tube"),
        "samples": _("Caught for samples"),
        "total": _("Resin to have ready"),
        "total_so_far": _("Total so far"),
        "a_volume": _("A, by volume"),
        "b_volume": _("B, by volume"),
        "a_mass": _("A, by weight"),
        "b_mass": _("B, by weight"),
        "seal_strip": _("Strip"),
        "seal_collars": _("Collars"),
        "seal_waste": _("Waste of paste"),
        "seal_total": _("Paste to mix"),
        "seal_so_far": _("Paste so far"),
        "seal_each": _("A and B, each"),
        **_time_labels(),
        **_site_labels(),
    }[name]


def _time_labels() -> dict[str, str]:
    return {
        "life_low": _("Pot life, shortest to expect"),
        "life_high": _("Pot life, longest to expect"),
        "gel_gate": _("Gel time"),
        "batches": _("Batches"),
        "mixer_stands": _("Resin may stand in the mixer"),
        "batch_limit": _("Largest batch"),
        "batch_count": _("Batches"),
        "batch_each": _("Each batch"),
        "batch_size": _("Beside the batch tested"),
        "time_limit": _("Time there is"),
        "reach": _("Reach before gel"),
        "reach_straight": _("Reach, straight front"),
        "reach_round": _("Reach, round front"),
        "arrives_straight": _("Next port, straight front"),
        "arrives_round": _("Next port, round front"),
        "next_port": _("Next port before gel"),
    }


def _site_labels() -> dict[str, str]:
    return {
        "port_pressure": _("Pressure for these ports"),
        "sheet_pressure": _("Pressure for the resin"),
        "sheet_temperature": _("Temperature for the resin"),
        "purge": _("Purge, both hoses"),
        "flush_each": _("Solvent for the flush, each side"),
        "flush": _("Solvent, both sides"),
        "vapour": _("Vapour, if all of it evaporates"),
        "vapour_share": _("Of the lower explosive limit"),
        "respirator": _("Respirator for grinding"),
        "collector": _("Dust collector draws at least"),
    }


def verdict_words(word: str) -> str:
    """What a verdict means, in a few words."""
    return {
        "long-enough": _("an hour or more at 22 °C"),
        "too-short": _("UNDER an hour at 22 °C"),
        "cannot-tell": _("cannot tell: ask the maker"),
        "reached": _("reached, by both models"),
        "in-doubt": _("IN DOUBT: by one model only"),
        "not-before-gel": _("NOT before gel"),
        "never": _("never: it gels first"),
        "normal": _("within what such ports held"),
        "may-leak": _("MAY LEAK: such ports leaked here"),
        "leaks": _("LEAKS: above what such ports held"),
        "within": _("within the data sheet"),
        "outside": _("OUTSIDE the data sheet"),
        "not-larger": _("not larger"),
        "larger-gels-sooner": _("LARGER: gels sooner"),
        "none": _("none by the table"),
        "apf-10": _("protection factor 10 or more"),
        "table-does-not-apply": _("the table does not apply: have the air assessed"),
    }[word]


BAD = frozenset(
    {
        *("too-short", "cannot-tell", "in-doubt", "not-before-gel", "never", "may-leak", "leaks"),
        *("outside", "larger-gels-sooner", "table-does-not-apply"),
    }
)


def value_words(line: Line) -> str:
    """The value of a line that is not open, in the reader's units."""
    return shown(line.value, line.quantity) if line.quantity else verdict_words(str(line.value))


def missing_words(name: str) -> str:
    """The words for something a line is open for."""
    return {
        "resin_temperature_c": _("temperature of the resin"),
        "waste": _("share for waste"),
        "mixing": _("how it is mixed"),
        "placing_ml_per_min": _("how fast you place it"),
        "tested_ml": _("batch the pot life was measured on"),
        "pressure_mpa": _("pressure at the port"),
        "port_opening_mm": _("opening of the port"),
        "hose_diameter_mm": _("hose, inside across"),
        "hose_length_mm": _("length of the hose"),
        "mixer_diameter_mm": _("mixer, inside across"),
        "mixer_length_mm": _("length of the mixer"),
        "tube_diameter_mm": _("tube, inside across"),
        "tube_length_mm": _("length of the tube"),
        "mixers": _("number of mixers"),
        "ratio_tests": _("number of ratio tests"),
        "per_test_ml": _("size of a ratio test"),
        "physical_samples": _("number of samples kept"),
        "per_sample_ml": _("size of a sample kept"),
        **_missing_on_site(),
    }.get(name) or sheet_value(name)


def _missing_on_site() -> dict[str, str]:
    return {
        "seal_width_mm": _("width of the seal"),
        "seal_thickness_mm": _("thickness of the seal"),
        "seal_sides": _("faces sealed"),
        "seal_waste": _("waste of paste"),
        "collar_outer_mm": _("collar, outside across"),
        "collar_foot_mm": _("foot of the port"),
        "collar_height_mm": _("height of the collar"),
        "grinding": _("where the grinding is"),
        "grinding_min": _("hours of grinding"),
        "controls": _("whether the controls are in place"),
        "wheel_mm": _("size of the wheel"),
        "solvent": _("which solvent"),
        "space_ml": _("air in the room"),
        "solvent_sheet": _("the solvent's own safety data sheet"),
    }


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
    return f"{shown(length_mm, 'length')} ({show(length_mm, 'length', other)})"
