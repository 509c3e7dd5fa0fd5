"""The units the trade uses, as exact factors to one base unit per quantity.

The factors are definitions (inch, US gallon, avoirdupois pound, standard gravity), kept as exact
fractions so that a typed answer is judged without rounding. Tests compare each one with pint.

Source: unit-definitions
"""

import unicodedata
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from types import MappingProxyType

from app.trade.errors import NotAChoice

INCH_MM = Fraction(254, 10)
GALLON_ML = 231 * INCH_MM**3 / 1000
POUND_G = Fraction("453.59237")
PSI_MPA = Fraction("0.00980665") * POUND_G / INCH_MM**2  # pound-force over a square inch


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: base value = number × factor + offset; `words` are the lower-case ways to type it."""

    name: str
    quantity: str
    factor: Fraction
    sign: str
    words: tuple[str, ...] = ()
    offset: Fraction = Fraction(0)


def _unit(
    name: str,
    quantity: str,
    factor: Fraction | int | str,
    sign: str,
    words: str = "",
    offset: Fraction | int = 0,
) -> Unit:
    spoken = tuple(word.strip() for word in words.split("|") if word.strip())
    return Unit(name, quantity, Fraction(factor), sign, (name, *spoken), Fraction(offset))


_LENGTHS = (
    _unit(
        "mm",
        "length",
        1,
        "mm",
        "millimeter|millimeters|millimetre|millimetres|milímetro|milímetros",
    ),
    _unit(
        "cm",
        "length",
        10,
        "cm",
        "centimeter|centimeters|centimetre|centimetres|centímetro|centímetros",
    ),
    _unit("m", "length", 1000, "m", "meter|meters|metre|metres|metro|metros"),
    _unit("in", "length", INCH_MM, "in", '"|inch|inches|ins|pulg|pulgs|pulgada|pulgadas'),
    _unit("ft", "length", 12 * INCH_MM, "ft", "'|foot|feet|pie|pies"),
    _unit("mil", "length", INCH_MM / 1000, "mil", "mils|thou|milésima|milésimas"),
)
_VOLUMES = (
    _unit(
        "ml",
        "volume",
        1,
        "mL",
        "cc|cm3|cm³|milliliter|milliliters|millilitre|millilitres|mililitro|mililitros",
    ),
    _unit("l", "volume", 1000, "L", "liter|liters|litre|litres|litro|litros"),
    _unit("floz", "volume", GALLON_ML / 128, "fl oz", "fl oz|oz|ounce|ounces|onza|onzas"),
    _unit("pt", "volume", GALLON_ML / 8, "pt", "pint|pints|pinta|pintas"),
    _unit("qt", "volume", GALLON_ML / 4, "qt", "quart|quarts|cuarto|cuartos"),
    _unit("gal", "volume", GALLON_ML, "gal", "gals|gallon|gallons|galón|galon|galones"),
    _unit("in3", "volume", INCH_MM**3 / 1000, "in³", "in³|cu in|cubic inch|cubic inches"),
    _unit("m3", "volume", 10**6, "m³", "m³|cubic meter|cubic meters|cubic metres"),
    _unit("ft3", "volume", (12 * INCH_MM) ** 3 / 1000, "ft³", "ft³|cu ft|cubic foot|cubic feet"),
)
_MASSES = (
    _unit("mg", "mass", "0.001", "mg", "milligram|milligrams|miligramo|miligramos"),
    _unit("g", "mass", 1, "g", "gram|grams|gramo|gramos"),
    _unit("kg", "mass", 1000, "kg", "kilo|kilos|kilogram|kilograms|kilogramo|kilogramos"),
    _unit("oz", "mass", POUND_G / 16, "oz", "ounce|ounces|onza|onzas"),
    _unit("lb", "mass", POUND_G, "lb", "lbs|pound|pounds|libra|libras"),
)
_TIMES = (
    _unit("s", "time", Fraction(1, 60), "s", "sec|secs|second|seconds|segundo|segundos"),
    _unit("min", "time", 1, "min", "mins|minute|minutes|minuto|minutos"),
    _unit("h", "time", 60, "h", "hr|hrs|hour|hours|hora|horas"),
)
_TEMPERATURES = (
    _unit("c", "temperature", 1, "°C", "°c|deg c|degc|celsius|ºc"),
    _unit(
        "f", "temperature", Fraction(5, 9), "°F", "°f|deg f|degf|fahrenheit|ºf", Fraction(-160, 9)
    ),
)
_PRESSURES = (
    _unit("pa", "pressure", "1e-6", "Pa", "pascal|pascals"),
    _unit("kpa", "pressure", "0.001", "kPa", "kilopascal|kilopascals"),
    _unit("mpa", "pressure", 1, "MPa", "megapascal|megapascals|n/mm2|n/mm²"),
    _unit("bar", "pressure", "0.1", "bar", "bars|bares"),
    _unit("psi", "pressure", PSI_MPA, "psi", "lb/in2|lb/in²"),
)
_MATERIAL = (
    _unit("g_per_ml", "density", 1, "g/mL", "g/ml|g/cm3|g/cm³|kg/l"),
    _unit("kg_per_m3", "density", "0.001", "kg/m³", "kg/m3|kg/m³"),
    _unit("lb_per_gal", "density", POUND_G / GALLON_ML, "lb/gal", "lb/gal|lbs/gal"),
    _unit("pa_s", "viscosity", 1, "Pa·s", "pa s|pa·s|pas"),
    _unit("mpa_s", "viscosity", "0.001", "mPa·s", "mpa s|mpa·s|mpas"),
    _unit("cp", "viscosity", "0.001", "cP", "cps|centipoise"),
    _unit("n_per_m", "surface tension", 1, "N/m", "n/m"),
    _unit("g_per_mol", "molar mass", 1, "g/mol", "g/mol"),
    _unit("deg", "angle", 1, "°", "°|degrees|grados"),
)
_AIR = (
    _unit("m3_per_h", "airflow", 1, "m³/h", "m3/h|m³/h"),
    _unit("cfm", "airflow", (12 * INCH_MM) ** 3 * 60 / 10**9, "cfm", "ft3/min|ft³/min"),
    _unit("ppm", "concentration", 1, "ppm"),
    _unit("mg_per_m3", "mass concentration", 1, "mg/m³", "mg/m3|mg/m³"),
    _unit("ml_per_min", "flow", 1, "mL/min", "ml/min|cc/min"),
    _unit("floz_per_min", "flow", GALLON_ML / 128, "fl oz/min", "fl oz/min|oz/min|floz/min"),
    _unit("ml_per_h", "flow", Fraction(1, 60), "mL/h", "ml/h|cc/h"),
    _unit("pt_per_h", "flow", GALLON_ML / 8 / 60, "pt/h", "pt/h|pint/h|pints/h"),
    _unit("per_min", "rate", 1, "/min", "/min"),
)
_PLAIN = (
    _unit("%", "share", "0.01", "%", "percent|por ciento"),
    _unit("parts", "ratio", 1, "parts", "part|parte|partes"),
    _unit("count", "count", 1, ""),
)

UNITS: dict[str, Unit] = {
    unit.name: unit
    for table in (
        *(_LENGTHS, _VOLUMES, _MASSES, _TIMES, _TEMPERATURES),
        *(_PRESSURES, _MATERIAL, _AIR, _PLAIN),
    )
    for unit in table
}

# The unit results come in when text is read; "" is a plain number.
BASE_UNITS: dict[str, str] = {
    unit.quantity: unit.name for unit in UNITS.values() if unit.factor == 1 and not unit.offset
} | {"ratio": "", "count": "", "share": "", "viscosity": "pa_s", "density": "g_per_ml"}


def unit_named(name: str) -> Unit:
    """The unit called `name`; NotAChoice when there is none.

    Example:
        >>> unit_named("mil").quantity
        'length'
    """
    if name not in UNITS:
        raise NotAChoice("unit", name, tuple(UNITS))
    return UNITS[name]


def to_base(number: Fraction, unit: str) -> Fraction:
    """A number of `unit` in the base unit of its quantity, exactly.

    Example:
        >>> to_base(Fraction(12), "ft")
        Fraction(18288, 5)
    """
    known = unit_named(unit)
    return number * known.factor + known.offset


def from_base(value: Fraction, unit: str) -> Fraction:
    """A base value as a number of `unit`, exactly.

    Example:
        >>> from_base(Fraction(254), "in")
        Fraction(10, 1)
    """
    known = unit_named(unit)
    return (value - known.offset) / known.factor


@cache
def words_for(quantity: str) -> Mapping[str, Unit]:
    """Every way to type a unit of `quantity`, folded as `folded` does it. Made once.

    Example:
        >>> sorted(words_for("pressure"))[:3]
        ['bar', 'bares', 'bars']
    """
    return MappingProxyType(
        {
            folded(word): unit
            for unit in UNITS.values()
            if unit.quantity == quantity
            for word in unit.words
        }
    )


def folded(word: str) -> str:
    """A unit word as it is compared: small letters, no full stops, no accents, single spaces.

    Example:
        >>> folded("Fl. Oz.")
        'fl oz'
    """
    bare = "".join(c for c in unicodedata.normalize("NFD", word) if not unicodedata.combining(c))
    return " ".join(bare.lower().replace(".", " ").split())
