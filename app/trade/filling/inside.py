"""What is inside the crack at one moment: resin, air, and what opens it to the outside."""

from dataclasses import dataclass, replace

import numpy as np

from app.trade.filling.arrays import Array, Mask
from app.trade.filling.openings import Opening
from app.trade.filling.plane import Plane

ATMOSPHERE_PA = 101_325.0
# A cell this close to full is full: the rest is rounding.
FULL = 1 - 1e-9
# The front passes the middle of a cell, where a port lies, when half of the cell is full. A step
# goes on to MIDDLE and the cell counts as reached from a little less, so that rounding, which
# differs from machine to machine, never decides whether it was.
MIDDLE = 0.5
REACHED = MIDDLE - 1e-9


@dataclass(slots=True)
class Inside:
    """Changing state of every cell.

    fill: share of the cell that holds resin. is_full: counts as full; the resin's pressure is then
    solved for. air_pa: absolute pressure of the air in a cell that is not full. resin_pa: pressure
    plus ρ g h of the resin when last solved. arrival_s: when the front last passed its middle;
    inf if it has not.
    """

    fill: Array
    is_full: Mask
    air_pa: Array
    resin_pa: Array
    arrival_s: Array

    def part(self, first: int, end: int) -> "Inside":
        """Views of some columns: what changes there changes here."""
        here = slice(first, end)
        return Inside(
            *(self.fill[here], self.is_full[here], self.air_pa[here]),
            *(self.resin_pa[here], self.arrival_s[here]),
        )

    @classmethod
    def empty(cls, plane: Plane) -> "Inside":
        """A crack with nothing but air in it."""
        shape = plane.width_m.shape
        return cls(
            np.zeros(shape),
            np.zeros(shape, dtype=bool),
            np.full(shape, ATMOSPHERE_PA),
            np.zeros(shape),
            np.full(shape, np.inf),
        )


@dataclass(frozen=True, slots=True)
class Hose:
    """The port the hose is on, and what the pump does there: nothing while the valve is shut."""

    port: Opening
    pressure_pa: float
    flow_m3_per_s: float
    is_open: bool


@dataclass(frozen=True, slots=True)
class Setting:
    """How the crack is joined to the outside while nobody changes anything.

    outlet_m3: conductance from a full cell to the open air, 0 for none. is_vent: cells through
    which air gets out. stops_at: cells at which resin can be seen: a step ends when it gets there.
    air_loss_per_s: rate at which the overpressure of a pocket fades into the concrete.
    """

    outlet_m3: Array
    is_vent: Mask
    stops_at: Mask
    air_loss_per_s: float = 0
    hose: Hose | None = None

    def part(self, first: int, end: int) -> "Setting":
        """The same for some columns."""
        here = slice(first, end)
        hose = self.hose
        if hose:
            columns, rows = hose.port.cells
            hose = replace(hose, port=replace(hose.port, cells=(columns - first, rows)))
        return Setting(
            *(self.outlet_m3[here], self.is_vent[here], self.stops_at[here]),
            *(self.air_loss_per_s, hose),
        )
