"""What a practice crack is made of: gauge readings, ports, branches, flaws.

SI units throughout, in the names. Every part checks its own numbers when it is made and refuses
them with OutOfRange or NotAChoice; what must fit together is checked by Crack.
"""

import math
from dataclasses import dataclass

from app.trade.calculator import Input

AT = Input("at_m", "m", 0, 100, says="along the strip, from its first end")
WIDTH = Input("width_m", "m", 1e-5, 1e-2, says="of the crack, by the gauge")
STRIP = Input("strip", "count", 0, 50, "count", says="0 the main crack, then the branches")
DRILLED = Input("drilled_m", "m", 0, 10, says="depth of a hole drilled into the crack; 0 for none")
LEAK = Input("conductance_m3", "m3", 0, 1e-6, says="flow x viscosity / pressure")
BACK_LEAK = Input("conductance_m2", "m2", 0, 1e-6, says="the same for each metre of back edge")
BACK = Input("kind", "", None, None, "choice", ("sealed", "open", "leaking"))
SHARE = Input("share", "", 0, 0.9, says="largest departure from the measured width")
PATCH = Input("patch_m", "m", 1e-4, 10, says="distance over which the width changes")
SEED = Input("seed", "count", 0, 2**63 - 1, "count")
RISE = Input("rise", "", -1, 1, says="height gained for each metre of branch")
BRANCH_LENGTH = Input("length_m", "m", 1e-3, 100)


@dataclass(frozen=True, slots=True)
class WidthAt:
    """One reading of the gauge. Straight lines between readings, level beyond the outer two."""

    at_m: float
    width_m: float

    def __post_init__(self) -> None:
        AT.check(self.at_m)
        WIDTH.check(self.width_m)


@dataclass(frozen=True, slots=True)
class Port:
    """An opening through the seal; with `drilled_m` a hole that crosses the crack to that depth."""

    at_m: float
    strip: int = 0
    drilled_m: float = 0

    def __post_init__(self) -> None:
        AT.check(self.at_m)
        STRIP.check(self.strip)
        DRILLED.check(self.drilled_m)


@dataclass(frozen=True, slots=True)
class Pinhole:
    """A hole in the seal. `conductance_m3`: see pinhole_conductance."""

    at_m: float
    conductance_m3: float
    strip: int = 0

    def __post_init__(self) -> None:
        AT.check(self.at_m)
        LEAK.check(self.conductance_m3)
        STRIP.check(self.strip)


def pinhole_conductance(bore_m: float, seal_thickness_m: float) -> float:
    """Flow × viscosity / pressure of a round hole through the seal: π d⁴ / (128 L).

    Inputs:
        bore_m: diameter of the hole, m
        seal_thickness_m: length of the hole, m
    Result:
        conductance_m3: m³
    Errors: OutOfRange outside 10 µm to 10 mm and 0.1 mm to 0.1 m.
    Source: hagen-poiseuille
    Example:
        >>> f"{pinhole_conductance(0.001, 0.002):.3g}"
        '1.23e-11'
    """
    Input("bore_m", "m", 1e-5, 1e-2).check(bore_m)
    Input("seal_thickness_m", "m", 1e-4, 0.1).check(seal_thickness_m)
    return math.pi * bore_m**4 / (128 * seal_thickness_m)


@dataclass(frozen=True, slots=True)
class Back:
    """The far edge of the crack: sealed, open, or leaking with a conductance per metre.

    `from_m` to `to_m` confines it to a stretch of the main crack; without them every strip has it.
    """

    kind: str = "sealed"
    conductance_m2: float = 0
    from_m: float | None = None
    to_m: float | None = None

    def __post_init__(self) -> None:
        BACK.check_choice(self.kind)
        BACK_LEAK.check(self.conductance_m2)
        for end in (self.from_m, self.to_m):
            AT.check_optional(end)


@dataclass(frozen=True, slots=True)
class Branch:
    """A strip that leaves the main crack at `at_m`, and comes back at `rejoins_m` if given.

    A branch that comes back encloses an island. `rise` says how steeply an open branch of a
    vertical crack climbs; one that comes back climbs evenly between its two ends.
    """

    at_m: float
    length_m: float
    widths: tuple[WidthAt, ...]
    rise: float = 0
    rejoins_m: float | None = None

    def __post_init__(self) -> None:
        AT.check(self.at_m)
        BRANCH_LENGTH.check(self.length_m)
        RISE.check(self.rise)
        AT.check_optional(self.rejoins_m)


@dataclass(frozen=True, slots=True)
class Contact:
    """A patch where the faces touch or dirt fills the crack: nothing passes."""

    from_m: float
    to_m: float
    from_depth_m: float
    to_depth_m: float
    strip: int = 0

    def __post_init__(self) -> None:
        for place in (self.from_m, self.to_m, self.from_depth_m, self.to_depth_m):
            AT.check(place)
        STRIP.check(self.strip)


@dataclass(frozen=True, slots=True)
class Roughness:
    """Seeded change of the width from place to place.

    Width = measured width × (1 + share × noise). The noise is drawn from −1 to 1 at points
    patch_m apart and runs straight between them, so it is the same on every grid. An assumption
    for practice: real crack faces are rough at every size.
    """

    share: float = 0
    patch_m: float = 0.02
    seed: int = 1

    def __post_init__(self) -> None:
        SHARE.check(self.share)
        PATCH.check(self.patch_m)
        SEED.check(self.seed)
