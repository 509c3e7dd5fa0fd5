"""What joins the crack to the outside: ports, pinholes and back, as the hand has left them."""

import numpy as np

from app.trade.calculator import Input
from app.trade.filling.arrays import Array, Mask
from app.trade.filling.crack import Crack
from app.trade.filling.inside import REACHED, Hose, Inside, Setting
from app.trade.filling.openings import back_of, pinholes_of, ports_of
from app.trade.filling.plane import Plane

WAYS_OUT = ("port", "pinhole", "back")


class Outside:
    """Caps, hose, valve, patches and the pump's pressure. Ports and pinholes count from 1."""

    def __init__(self, crack: Crack, plane: Plane) -> None:
        self.crack = crack
        self.shape = plane.width_m.shape
        self.ports = ports_of(crack, plane)
        self.pinholes = pinholes_of(crack, plane)
        self.back = np.zeros(self.shape)
        self.back[:, -1] = back_of(crack, plane)
        self.has_back = bool(self.back.any())
        self.hose_at = 0
        self.is_valve_open = False
        self.pressure_pa = crack.pump.pressure_pa
        self.capped: set[int] = set()
        self.patched: set[int] = set()
        self._kept: dict[str, Array] = {}

    def has_changed(self) -> None:
        """A hand has done something: work the outlets out anew."""
        self._kept = {}

    def check_port(self, port: int) -> int:
        """The port's number, or OutOfRange with it."""
        return int(Input("port", "count", 1, len(self.ports), "count").check(port))

    def check_pinhole(self, pinhole: int) -> int:
        """The pinhole's number, or OutOfRange with it."""
        return int(Input("pinhole", "count", 1, len(self.pinholes), "count").check(pinhole))

    def open_ports(self) -> list[int]:
        """Ports with neither cap nor hose."""
        return [
            number
            for number in range(1, len(self.ports) + 1)
            if number not in self.capped and number != self.hose_at
        ]

    def open_pinholes(self) -> list[int]:
        """Pinholes that leak once resin is there."""
        return [
            number
            for number, (_, conductance) in enumerate(self.pinholes, start=1)
            if conductance and number not in self.patched
        ]

    def outlets(self) -> dict[str, Array]:
        """Conductance of every cell to the open air, by way out, and in all."""
        if self._kept:
            return self._kept
        port, pinhole = np.zeros(self.shape), np.zeros(self.shape)
        for number in self.open_ports():
            port[self.ports[number - 1].cells] += self.ports[number - 1].outlet_m3
        for number in self.open_pinholes():
            column, conductance = self.pinholes[number - 1]
            pinhole[column, 0] += conductance
        self._kept = {"port": port, "pinhole": pinhole, "back": self.back}
        self._kept["all"] = port + pinhole + self.back
        return self._kept

    def setting(self, unseen: Mask) -> Setting:
        """All of it for the solver. unseen: cells whose filling ends a step."""
        total = self.outlets()["all"]
        hose = None
        if self.hose_at:
            pump = self.crack.pump
            port = self.ports[self.hose_at - 1]
            hose = Hose(port, self.pressure_pa, pump.flow_m3_per_s, self.is_valve_open)
        return Setting(total, total > 0, unseen, self.crack.air_loss_per_min / 60, hose)

    def wet_ports(self, inside: Inside) -> list[int]:
        """Open ports with resin at them."""
        return [
            number
            for number in self.open_ports()
            if (inside.fill[self.ports[number - 1].cells] >= REACHED).any()
        ]

    def wet_pinholes(self, inside: Inside) -> list[int]:
        """Open pinholes with resin at them."""
        return [
            number
            for number in self.open_pinholes()
            if inside.fill[self.pinholes[number - 1][0], 0] >= REACHED
        ]

    def unseen(self, told: set[tuple[str, int]]) -> Mask:
        """Cells at which a hand would see resin for the first time."""
        cells = np.zeros(self.shape, dtype=bool)
        for number in self.open_ports():
            if ("resin-at-port", number) not in told:
                cells[self.ports[number - 1].cells] = True
        for number in self.open_pinholes():
            if ("leak-at-pinhole", number) not in told:
                cells[self.pinholes[number - 1][0], 0] = True
        return cells
