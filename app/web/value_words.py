"""Values of a job, of a product data sheet and of a batch, in words of the page's language."""

from collections.abc import Callable

from flask_babel import gettext
from flask_babel import gettext as _

# By the name a record keeps them under, without resin_ or job_ in front. Translated when shown.
VALUE_WORDS = {
    "parts_a": "parts of A by volume",
    "parts_b": "parts of B by volume",
    "ratio_tolerance": "tolerance of the ratio",
    "density_a_g_per_ml": "density of A",
    "density_b_g_per_ml": "density of B",
    "viscosity_pa_s": "viscosity, mixed",
    "pot_life_min": "pot life",
    "pot_life_reference_c": "temperature the pot life is given at",
    "gel_time_min": "gel time",
    "min_temperature_c": "lowest temperature to work at",
    "max_temperature_c": "highest temperature to work at",
    "max_pressure_mpa": "highest injection pressure",
    "length_mm": "length of the crack",
    "depth_mm": "depth of the crack",
    "thickness_mm": "thickness of the member",
    "width_mm": "width of the crack",
    "spacing_mm": "spacing of the ports",
    "port_kind": "kind of port",
    "mixed_at": "A met B at",
    "resin_temperature": "temperature of the resin",
}


def value_word(name: str, translate: Callable[[str], str] = gettext) -> str:
    """Return what a value is called: "resin_parts_a" is “parts of A by volume”."""
    for known in (name, name.removeprefix("resin_").removeprefix("job_")):
        if known in VALUE_WORDS:
            return translate(VALUE_WORDS[known])
    return name.replace("_", " ").replace("-", " ")


def opened(words: str) -> str:
    """Return words with a capital at the start and everything else as it is: “Parts of A”."""
    return words[:1].upper() + words[1:]


def language_name(code: str) -> str:
    """Return a language's name: "es" is “Spanish”; empty where none was kept."""
    return {"en": _("English"), "es": _("Spanish")}.get(code, "")
