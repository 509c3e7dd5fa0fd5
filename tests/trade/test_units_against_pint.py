"""Every conversion factor against the pint library, which holds its own definitions."""

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.trade.errors import NotAChoice
from app.trade.units import BASE_UNITS, UNITS, folded, from_base, to_base

registry = pint.UnitRegistry()

PINT_NAMES = {
    "mm": "millimeter", "cm": "centimeter", "m": "meter", "in": "inch", "ft": "foot", "mil": "thou",
    "ml": "milliliter", "l": "liter", "floz": "fluid_ounce", "pt": "pint", "qt": "quart",
    "gal": "gallon", "in3": "inch**3", "m3": "meter**3", "ft3": "foot**3",
    "mg": "milligram", "g": "gram", "kg": "kilogram", "oz": "ounce", "lb": "pound",
    "s": "second", "min": "minute", "h": "hour",
    "c": "degC", "f": "degF",
    "pa": "pascal", "kpa": "kilopascal", "mpa": "megapascal", "bar": "bar", "psi": "psi",
    "g_per_ml": "gram/milliliter", "kg_per_m3": "kilogram/meter**3", "lb_per_gal": "pound/gallon",
    "pa_s": "pascal*second", "mpa_s": "millipascal*second", "cp": "centipoise",
    "n_per_m": "newton/meter", "g_per_mol": "gram/mole", "deg": "degree",
    "m3_per_h": "meter**3/hour", "cfm": "foot**3/minute",
    "ppm": "ppm", "mg_per_m3": "milligram/meter**3",
    "ml_per_min": "milliliter/minute", "floz_per_min": "fluid_ounce/minute",
    "ml_per_h": "milliliter/hour", "pt_per_h": "pint/hour", "per_min": "1/minute",
    "%": "percent",
}  # fmt: skip
PLAIN = {"parts", "count"}
BASES_IN_PINT = {quantity: PINT_NAMES.get(name, "") for quantity, name in BASE_UNITS.items()}


def test_every_unit_is_compared():
    assert set(UNITS) - PLAIN <= set(PINT_NAMES)


@pytest.mark.parametrize("name", sorted(set(UNITS) - PLAIN))
@pytest.mark.parametrize("number", [1, 37.5])
def test_a_factor_is_pints(name, number):
    base = BASES_IN_PINT[UNITS[name].quantity]
    expected = registry.Quantity(number, PINT_NAMES[name]).to(base or "dimensionless").magnitude
    assert float(to_base(Fraction(number), name)) == pytest.approx(expected, rel=1e-12)


@given(st.fractions(min_value=-100, max_value=10**6), st.sampled_from(sorted(UNITS)))
def test_there_and_back_is_exact(number, name):
    assert from_base(to_base(number, name), name) == number


METRIC = ["mm", "cm", "m", "ml", "l", "mg", "g", "kg", "pa", "kpa", "mpa"]


@pytest.mark.parametrize("name", METRIC)
def test_a_metric_unit_is_read_when_it_is_written_out(name):
    """Pint's names are the SI brochure's; -re is the same name as spelled outside the US."""
    word = PINT_NAMES[name]
    spellings = {word, f"{word}s"}
    if word.endswith("er"):
        spellings |= {f"{word[:-2]}re", f"{word[:-2]}res"}
    assert spellings <= set(UNITS[name].words)


def test_a_typed_word_means_one_unit_of_a_quantity():
    for quantity in {unit.quantity for unit in UNITS.values()}:
        words = [
            folded(word)
            for unit in UNITS.values()
            if unit.quantity == quantity
            for word in {folded(word) for word in unit.words}
        ]
        assert len(words) == len(set(words)), quantity


def test_an_unknown_unit_is_refused():
    with pytest.raises(NotAChoice, match="'cubit'"):
        to_base(Fraction(1), "cubit")
