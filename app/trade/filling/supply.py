"""What is pumped, and what pumps it. SI units throughout, in the names."""

import math
from dataclasses import dataclass

from app.trade.calculator import Input
from app.trade.viscosity import GROWTH, LARGEST_EXPONENT, VISCOSITY

DENSITY = Input("density_kg_per_m3", "kg_per_m3", 500, 3000, says="of the mixed resin")
GEL_TIME = Input("gel_time_s", "s", 1, 1_000_000, says="from mixing to gel")
AGE = Input("age_s", "s", 0, 1_000_000, says="since mixing, when the first valve opens")
TENSION = Input("surface_tension_n_per_m", "n_per_m", 0, 0.1, says="0 leaves suction out")
ANGLE = Input("contact_angle_deg", "deg", 0, 89, says="of resin on concrete")
PRESSURE = Input("pressure_pa", "pa", 0, 5e6, says="set on the pump, gauge")
FLOW = Input("flow_m3_per_s", "m3_per_s", 1e-12, 1e-2, says="most that the pump delivers")
REFUSAL = Input("refusal_m3_per_s", "m3_per_s", 0, 1e-2, says="less than this counts as refusal")


@dataclass(frozen=True, slots=True)
class Resin:
    """Mixed resin. All of it is taken to be as old as the first that was mixed.

    Its viscosity follows viscosity.py: viscosity_pa_s at mixing, growing by growth_per_min, until
    it gels at gel_time_s and stops. With a surface tension the crack also draws resin in.
    """

    viscosity_pa_s: float
    density_kg_per_m3: float = 1100
    growth_per_min: float = 0
    gel_time_s: float = 3600
    age_s: float = 0
    surface_tension_n_per_m: float = 0
    contact_angle_deg: float = 30

    def __post_init__(self) -> None:
        VISCOSITY.check(self.viscosity_pa_s)
        DENSITY.check(self.density_kg_per_m3)
        GROWTH.check(self.growth_per_min)
        GEL_TIME.check(self.gel_time_s)
        AGE.check(self.age_s)
        TENSION.check(self.surface_tension_n_per_m)
        ANGLE.check(self.contact_angle_deg)
        # An exponent beyond this is no viscosity a number can hold.
        fastest = LARGEST_EXPONENT * 60 / self.gel_time_s
        Input("growth_per_min", "per_min", 0, fastest).check(self.growth_per_min)

    @property
    def pull_n_per_m(self) -> float:
        """Suction of a slot times its width: 2 γ cos θ (capillary-rise)."""
        return 2 * self.surface_tension_n_per_m * math.cos(math.radians(self.contact_angle_deg))


@dataclass(frozen=True, slots=True)
class Pump:
    """A pump that delivers a set flow or holds a set pressure, whichever it meets first.

    A large flow makes it a pump at constant pressure, a large pressure one at constant flow. A
    valve lets nothing back. Below refusal_m3_per_s the crack is said to refuse resin, which is no
    proof that it is full (refusal-not-enough).
    """

    pressure_pa: float = 200_000
    flow_m3_per_s: float = 1e-5
    refusal_m3_per_s: float = 2e-9

    def __post_init__(self) -> None:
        PRESSURE.check(self.pressure_pa)
        FLOW.check(self.flow_m3_per_s)
        REFUSAL.check(self.refusal_m3_per_s)
