"""Every calculator that content, pages and the command line may name. An explicit table."""

from itertools import chain

from app.trade import (
    crack,
    losses,
    mixing,
    ratio,
    resin,
    seal,
    spacing,
)
from app.trade.calculator import REQUIRED, Calculator, Input, Output

__all__ = ["CALCULATORS", "REQUIRED", "Calculator", "Input", "Output"]

_MODULES = (
    *(crack.CALCULATORS, resin.CALCULATORS, losses.CALCULATORS),
    *(mixing.CALCULATORS, ratio.CALCULATORS, seal.CALCULATORS),
    *(spacing.CALCULATORS,),
)


def _by_name(entries: tuple[Calculator, ...]) -> dict[str, Calculator]:
    table: dict[str, Calculator] = {}
    for entry in entries:
        if entry.name in table:
            raise ValueError(f"two calculators are called {entry.name}")
        table[entry.name] = entry
    return table


CALCULATORS: dict[str, Calculator] = _by_name(tuple(chain.from_iterable(_MODULES)))
