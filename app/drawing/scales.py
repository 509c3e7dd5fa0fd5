"""Axes: from a value to a place in the picture, and which values get a tick."""

import math
from dataclasses import dataclass
from fractions import Fraction

from app.trade.showing import System
from app.trade.units import from_base, to_base


@dataclass(frozen=True, slots=True)
class Scale:
    """Values from low to high on a stretch of the picture; `start` is where `low` lies."""

    low: float
    high: float
    start: float
    end: float
    is_log: bool = False

    def __post_init__(self) -> None:
        if not self.low < self.high or (self.is_log and self.low <= 0):
            raise ValueError(f"no scale runs from {self.low} to {self.high}")

    def at(self, value: float) -> float:
        """The place of a value.

        Errors: ValueError for a value outside the scale.
        Example:
            >>> Scale(0, 10, 100, 200).at(5), Scale(1, 100, 0, 50, is_log=True).at(10)
            (150.0, 25.0)
        """
        if not self.low <= value <= self.high:
            raise ValueError(f"{value} lies outside {self.low} to {self.high}")
        return self.start + self.share(value) * (self.end - self.start)

    def share(self, value: float) -> float:
        """How far along the scale a value lies, 0 at low and 1 at high."""
        if self.is_log:
            return math.log(value / self.low) / math.log(self.high / self.low)
        return (value - self.low) / (self.high - self.low)


# Values that a crew reads off at a glance, by what is measured and in which system.
_LADDERS: dict[tuple[str, System], tuple[str, tuple[float, ...]]] = {
    ("width", "metric"): ("mm", (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10)),
    ("width", "us"): ("mil", (0.5, 1, 2, 5, 10, 20, 50, 100, 200)),
    ("reach", "metric"): ("mm", (1, 3, 10, 30, 100, 300, 1e3, 3e3, 1e4, 3e4, 1e5, 1e6)),
    ("reach", "us"): ("in", (0.1, 0.5, 1, 3, 6, 12, 36, 120, 360, 1200, 3600, 36000)),
}


def ladder(kind: str, system: System, low: float, high: float) -> tuple[float, ...]:
    """The ticks of a log axis for widths or reaches, in mm.

    Inputs:
        kind: width or reach
        low, high: ends of the axis, mm
    Example:
        >>> ladder("width", "metric", 0.05, 1)
        (0.05, 0.1, 0.2, 0.5, 1.0)
    """
    unit, rungs = _LADDERS[kind, system]
    in_mm = (float(to_base(Fraction(str(rung)), unit)) for rung in rungs)
    return tuple(rung for rung in in_mm if low <= rung <= high)


def even_ticks(low: float, high: float, unit: str, about: int = 5) -> tuple[float, ...]:
    """Ticks at round numbers of a unit, about so many, in the base unit of its quantity.

    Example:
        >>> even_ticks(5, 35, "c"), even_ticks(0, 100, "min", 2)
        ((10.0, 20.0, 30.0), (0.0, 50.0, 100.0))
    """
    first, last = (float(from_base(Fraction(value), unit)) for value in (low, high))
    step = _round_step((last - first) / about)
    rungs = range(math.ceil(first / step - 1e-9), math.floor(last / step + 1e-9) + 1)
    return tuple(float(to_base(Fraction(rung) * Fraction(str(step)), unit)) for rung in rungs)


def _round_step(least: float) -> float:
    """The smallest of 1, 2, 5, 10 … that is not less than `least`."""
    power = 10.0 ** math.floor(math.log10(least))
    return next(power * n for n in (1, 2, 5, 10) if power * n >= least * (1 - 1e-9))
