"""The types of the registry: what a calculator is, what it takes and what it gives.

An `Input` is written once per argument. The function checks with it and the registry shows it, so
that bounds cannot differ between the two.
"""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import Enum
from typing import Any, Final, Literal

from app.trade.errors import NotAChoice, NotListed, OutOfRange


class Required(Enum):
    """The mark of an input that has no default."""

    REQUIRED = "required"


REQUIRED: Final = Required.REQUIRED

# number   one number            numbers  several numbers       count  a whole number
# choice   one word of a list    flag     true or false
# path     points (x, y) in mm   paths    several paths
Kind = Literal["number", "count", "numbers", "choice", "flag", "path", "paths"]

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Input:
    """One argument of a calculator: its unit, its inclusive bounds and how it is typed.

    A bound of None means there is none. An input whose default is None may be left out.
    """

    name: str
    unit: str
    low: float | None
    high: float | None
    kind: Kind = "number"
    choices: tuple[str, ...] = ()
    default: Any = REQUIRED
    says: str = ""

    def check(self, value: float) -> float:
        """Give the value back, or raise OutOfRange with it; NaN is out of every range."""
        if isinstance(value, bool) or math.isnan(value) or math.isinf(value):
            raise OutOfRange(self.name, value, self.low, self.high, self.unit)
        if self.kind == "count" and value != int(value):
            raise OutOfRange(self.name, value, self.low, self.high, "whole " + self.unit)
        too_low = self.low is not None and value < self.low
        if too_low or (self.high is not None and value > self.high):
            raise OutOfRange(self.name, value, self.low, self.high, self.unit)
        return value

    def check_optional(self, value: float | None) -> float | None:
        """As check, but None passes: the value was left out."""
        return None if value is None else self.check(value)

    def check_all(self, values: Sequence[float], at_least: int = 1) -> tuple[float, ...]:
        """Check every value of a list; NotListed when there are fewer than `at_least`."""
        if len(values) < at_least:
            raise NotListed(self.name, list(values), f"at least {at_least} needed")
        return tuple(self.check(value) for value in values)

    def check_flag(self, value: bool) -> bool:
        """Give true or false back; NotAChoice for anything else, a 0 or a word included."""
        if not isinstance(value, bool):
            raise NotAChoice(self.name, value, ("true", "false"))
        return value

    def check_choice(self, value: str) -> str:
        """Give the word back, or raise NotAChoice with it."""
        if value not in self.choices:
            raise NotAChoice(self.name, value, self.choices)
        return value


@dataclass(frozen=True, slots=True)
class Output:
    """One number or word of the result, with its unit ("" for words and plain numbers)."""

    name: str
    unit: str


@dataclass(frozen=True, slots=True)
class Calculator:
    """A function that content, pages and the command line may name."""

    name: str
    function: Callable[..., Any]
    title: str
    inputs: tuple[Input, ...]
    outputs: tuple[Output, ...]
    sources: tuple[str, ...]


def calculator(
    function: Callable[..., Any],
    title: str,
    inputs: tuple[Input, ...],
    outputs: tuple[Output, ...],
    sources: tuple[str, ...],
) -> Calculator:
    """The registry entry of a function, under the function's own name."""
    return Calculator(function.__name__, function, title, inputs, outputs, sources)
