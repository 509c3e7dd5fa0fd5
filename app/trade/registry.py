"""Every calculator that content, pages and the command line may name. An explicit table."""

from app.trade import (
    batch_clock,
    capillary,
    conditions,
    cores,
    crack,
    crack_width,
    dust,
    dust_collector,
    injection_order,
    losses,
    mixing,
    next_port,
    port_layout,
    port_pressure,
    pot_life,
    practice_questions,
    pump,
    radial_flow,
    ratio,
    repair_choice,
    resin,
    seal,
    slot_flow,
    solvent,
    spacing,
    vapour,
    viscosity,
)
from app.trade.calculator import REQUIRED, Calculator, Input, Output

__all__ = ["CALCULATORS", "REQUIRED", "Calculator", "Input", "Output"]

# In the order of the work: the decision, the ports, the material, the pump, the crack, safety.
_LISTED: tuple[Calculator, ...] = (
    *repair_choice.CALCULATORS,
    *crack_width.CALCULATORS,
    *crack.CALCULATORS,
    *spacing.CALCULATORS,
    *injection_order.CALCULATORS,
    *port_layout.CALCULATORS,
    *seal.CALCULATORS,
    *resin.CALCULATORS,
    *losses.CALCULATORS,
    *mixing.CALCULATORS,
    *ratio.CALCULATORS,
    *pot_life.CALCULATORS,
    *batch_clock.CALCULATORS,
    *conditions.CALCULATORS,
    *pump.CALCULATORS,
    *port_pressure.CALCULATORS,
    *slot_flow.CALCULATORS,
    *radial_flow.CALCULATORS,
    *capillary.CALCULATORS,
    *viscosity.CALCULATORS,
    *next_port.CALCULATORS,
    *practice_questions.CALCULATORS,
    *cores.CALCULATORS,
    *dust.CALCULATORS,
    *dust_collector.CALCULATORS,
    *solvent.CALCULATORS,
    *vapour.CALCULATORS,
)


def _by_name(entries: tuple[Calculator, ...]) -> dict[str, Calculator]:
    table: dict[str, Calculator] = {}
    for entry in entries:
        if entry.name in table:
            raise ValueError(f"two calculators are called {entry.name}")
        table[entry.name] = entry
    return table


CALCULATORS: dict[str, Calculator] = _by_name(_LISTED)
