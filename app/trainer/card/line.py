"""A line of the job card: a number with its sources, or the names of what is missing. No Flask."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from app.trade.errors import Refusal
from app.trade.registry import CALCULATORS


@dataclass(frozen=True, slots=True)
class Line:
    """One line. `value` in the base unit of `quantity`; a word where there is no quantity.

    A line whose value is None stays open on the card: `missing` says for want of what, `refused`
    holds the trade's own refusal where the values do not go together.
    """

    name: str
    value: Any = None
    quantity: str = ""
    sources: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    refused: Refusal | None = None

    @property
    def is_open(self) -> bool:
        """Whether the line has to be filled in by hand."""
        return self.value is None

    @property
    def number(self) -> float:
        """The value of a line that is not open."""
        assert self.value is not None
        return float(self.value)


def sources_of(*calculators: str) -> tuple[str, ...]:
    """The sources of one or more calculators, each once."""
    return tuple(dict.fromkeys(s for name in calculators for s in CALCULATORS[name].sources))


def absent(given: Mapping[str, Any]) -> tuple[str, ...]:
    """The names whose value is missing."""
    return tuple(name for name, value in given.items() if value in (None, ""))


def worked(
    name: str,
    quantity: str,
    calculators: tuple[str, ...],
    given: Mapping[str, Any],
    work: Callable[..., Any],
) -> Line:
    """The line that `work` gives for what is given, in order; open when any of it is missing."""
    sources = sources_of(*calculators)
    if missing := absent(given):
        return Line(name, None, quantity, sources, missing)
    try:
        return Line(name, work(*given.values()), quantity, sources)
    except Refusal as refusal:
        return Line(name, None, quantity, sources, refused=refusal)
