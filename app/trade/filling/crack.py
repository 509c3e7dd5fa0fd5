"""The practice crack: everything the model is given, checked to fit together."""

from dataclasses import dataclass, replace
from itertools import pairwise

from app.trade.calculator import Input
from app.trade.errors import NotListed, OutOfRange
from app.trade.filling.parts import (
    Back,
    Branch,
    Contact,
    Pinhole,
    Port,
    Roughness,
    WidthAt,
)
from app.trade.filling.supply import Pump, Resin
from app.trade.injection_order import ORIENTATION

LENGTH = Input("length_m", "m", 1e-3, 100, says="along the surface")
DEPTH = Input("depth_m", "m", 1e-3, 10, says="into the member")
BACK_SHARE = Input("back_width_share", "", 0.05, 5, says="width at the back over width at the face")
PORT_RADIUS = Input("port_radius_m", "m", 1e-4, 0.05, says="of the half-round opening")
PORT_LIMIT = Input("port_limit_pa", "pa", 1_000, 5e6, says="the most the ports should bear")
AIR_LOSS = Input("air_loss_per_min", "per_min", 0, 10, says="of a pocket's overpressure")
COLUMNS = Input("columns", "count", 1, 600, "count", says="cells along the main crack")
ROWS = Input("rows", "count", 1, 200, "count", says="cells over the depth")
MOST_CELLS = 40_000
PLAIN_PUMP, SEALED, SMOOTH = Pump(), Back(), Roughness()


@dataclass(frozen=True, slots=True)
class Strip:
    """One flat strip of crack: where it lies in height, and how wide it is."""

    length_m: float
    widths: tuple[WidthAt, ...]
    columns: int
    foot_m: float  # height of its first end, for a vertical crack
    rise: float


@dataclass(frozen=True, slots=True)
class Crack:
    """A crack in a wall with its ports, its flaws, the resin and the pump; ready to be injected.

    Inputs:
        length_m: along the surface, m; for a vertical crack at_m is height
        depth_m: into the member, m
        widths: gauge readings along the crack
        ports: port 1 is the first
        resin, pump: see Resin and Pump
        orientation: vertical (height along the crack), horizontal (level), overhead (height into
            the member)
        back: sealed, open or leaking
        pinholes: holes in the seal
        branches: strips 1, 2 … as deep as the main crack, strip 0
        contacts: patches that nothing passes
        roughness: seeded change of the width
        back_width_share: width at the back over width at the face, straight in between
        port_radius_m: radius of the half-round opening of a surface port onto the crack plane
        port_limit_pa: pressure above which a port counts as over its limit (port-pressure)
        air_loss_per_min: rate at which a closed pocket's overpressure fades into the concrete if
            its volume stays; 0 for none. An assumption, not a measured figure.
        columns, rows: cells along the main crack and over the depth
    Errors: OutOfRange, NotAChoice, NotListed
    """

    length_m: float
    depth_m: float
    widths: tuple[WidthAt, ...]
    ports: tuple[Port, ...]
    resin: Resin
    pump: Pump = PLAIN_PUMP
    orientation: str = "vertical"
    back: Back = SEALED
    pinholes: tuple[Pinhole, ...] = ()
    branches: tuple[Branch, ...] = ()
    contacts: tuple[Contact, ...] = ()
    roughness: Roughness = SMOOTH
    back_width_share: float = 1
    port_radius_m: float = 0.0015
    port_limit_pa: float = 300_000
    air_loss_per_min: float = 0
    columns: int = 150
    rows: int = 40

    def __post_init__(self) -> None:
        for bound, value in (
            *((LENGTH, self.length_m), (DEPTH, self.depth_m), (COLUMNS, self.columns)),
            *((ROWS, self.rows), (BACK_SHARE, self.back_width_share)),
            *((PORT_RADIUS, self.port_radius_m), (PORT_LIMIT, self.port_limit_pa)),
            (AIR_LOSS, self.air_loss_per_min),
        ):
            bound.check(value)
        ORIENTATION.check_choice(self.orientation)
        self._check_strips()
        self._check_places()

    @property
    def strips(self) -> tuple[Strip, ...]:
        """The main crack, then the branches in the order given."""
        main = Strip(self.length_m, self.widths, self.columns, 0.0, 1.0)
        cell = self.length_m / self.columns
        branches = []
        for branch in self.branches:
            columns = max(1, round(branch.length_m / cell))
            climbed = branch.rejoins_m
            rise = branch.rise if climbed is None else (climbed - branch.at_m) / branch.length_m
            branches.append(Strip(branch.length_m, branch.widths, columns, branch.at_m, rise))
        return (main, *branches)

    def with_grid(self, columns: int, rows: int) -> "Crack":
        """The same crack on another grid."""
        return replace(self, columns=columns, rows=rows)

    def height_of(self, port: int) -> float:
        """Height of a port, m; ports count from 1. Level for all but a vertical crack."""
        place = self.ports[port - 1]
        strip = self.strips[place.strip]
        return strip.foot_m + strip.rise * place.at_m if self.orientation == "vertical" else 0.0

    def _check_strips(self) -> None:
        for branch in self.branches:
            for end in (branch.at_m, branch.rejoins_m):
                if end is not None:
                    _within("at_m", end, self.length_m)
            if branch.rejoins_m is not None:
                _within("rejoins_m", abs(branch.rejoins_m - branch.at_m), branch.length_m)
        for strip in self.strips:
            places = [reading.at_m for reading in strip.widths]
            if not places or any(b <= a for a, b in pairwise(places)):
                raise NotListed("widths", places, "readings must lie one beyond the other")
            _within("at_m", places[-1], strip.length_m)
        cells = self.rows * sum(strip.columns for strip in self.strips)
        if cells > MOST_CELLS:
            raise OutOfRange("columns", cells, 1, MOST_CELLS, "cells in all")

    def _check_places(self) -> None:
        if not self.ports:
            raise NotListed("ports", [], "at least one needed")
        places: tuple[Port | Pinhole, ...] = (*self.ports, *self.pinholes)
        for place in places:
            _within("strip", place.strip, len(self.branches))
            _within("at_m", place.at_m, self.strips[place.strip].length_m)
        for port in self.ports:
            _within("drilled_m", port.drilled_m, self.depth_m)
        for patch in self.contacts:
            _within("strip", patch.strip, len(self.branches))
            for start, end in (
                (patch.from_m, patch.to_m),
                (patch.from_depth_m, patch.to_depth_m),
            ):
                _within("from", start, end)
        back = self.back
        if back.from_m is not None and back.to_m is not None:
            _within("from_m", back.from_m, back.to_m)


def _within(name: str, value: float, high: float) -> None:
    if value > high:
        raise OutOfRange(name, value, 0, high, "" if name == "strip" else "m")
