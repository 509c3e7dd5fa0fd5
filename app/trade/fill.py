"""The crack-fill model: resin injected port by port into a crack, by real flow. The door to it.

`Filling(crack).apply(decision)` gives the events of one decision; `run(crack, decisions)` a whole
run. Loads numpy and scipy: import it only where a crack is filled.

What it leaves out: resin and air side by side in one place, bubbles that rise, a film left behind a
receding front, cracks that open under pressure, dirt that moves, heat of reaction, fresh resin
being younger than old. A model, not the wall: real cracks are judged by the engineer, with the
product data sheet.
"""

from app.trade.filling.actions import (
    Decision,
    Event,
    NoHose,
    cap,
    close,
    move_to,
    patch,
    pump,
    set_pressure,
    uncap,
    wait,
    watch,
)
from app.trade.filling.crack import Crack
from app.trade.filling.filling import Filling
from app.trade.filling.parts import (
    Back,
    Branch,
    Contact,
    Pinhole,
    Port,
    Roughness,
    WidthAt,
    pinhole_conductance,
)
from app.trade.filling.running import Outcome, Result, run
from app.trade.filling.state import ArrivalMap, Behind, Pocket, Seen
from app.trade.filling.supply import Pump, Resin

__all__ = [
    "ArrivalMap",
    "Back",
    "Behind",
    "Branch",
    "Contact",
    "Crack",
    "Decision",
    "Event",
    "Filling",
    "NoHose",
    "Outcome",
    "Pinhole",
    "Pocket",
    "Port",
    "Pump",
    "Resin",
    "Result",
    "Roughness",
    "Seen",
    "WidthAt",
    "cap",
    "close",
    "move_to",
    "patch",
    "pinhole_conductance",
    "pump",
    "run",
    "set_pressure",
    "uncap",
    "wait",
    "watch",
]
