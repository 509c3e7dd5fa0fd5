"""Inputs of a calculator as they are typed in a shell, read by the trade's own grammar."""

from typing import Any

from app.trade.calculator import Input, Point
from app.trade.errors import NotAChoice, NotListed
from app.trade.lengths import read_quantity
from app.trade.units import UNITS, from_base


def read_input(entry: Input, text: str) -> Any:
    """The value of one input.

    A bare number is in the input's own unit. Refusals carry the sentence to print.
    """
    if entry.kind == "choice":
        return text
    if entry.kind == "flag":
        return _flag(entry, text)
    if entry.kind == "numbers":
        return tuple(_number(entry, part) for part in text.split(",")) if text.strip() else ()
    if entry.kind == "path":
        return _path(entry, text)
    if entry.kind == "paths":
        return tuple(_path(entry, part) for part in text.split(";") if part.strip())
    number = _number(entry, text)
    return int(number) if entry.kind == "count" and number == int(number) else number


def _flag(entry: Input, text: str) -> bool:
    if text not in ("true", "false"):
        raise NotAChoice(entry.name, text, ("true", "false"))
    return text == "true"


def _number(entry: Input, text: str) -> float:
    unit = UNITS.get(entry.unit)
    if unit is None or not unit.name:
        # A plain number; a share may be typed with its sign.
        quantity = "share" if text.strip().endswith("%") else "ratio"
        return float(read_quantity(text, quantity).value)
    value = read_quantity(text, unit.quantity, unit.name).value
    return float(from_base(value, unit.name))


def _path(entry: Input, text: str) -> tuple[Point, ...]:
    points = []
    for pair in text.split():
        x, comma, y = pair.partition(",")
        try:
            points.append((float(x), float(y)))
        except ValueError:
            comma = ""
        if not comma:
            raise NotListed(entry.name, pair, "write points as x,y with a space between points")
    return tuple(points)
