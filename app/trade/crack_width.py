"""Is the crack wide enough to inject? Each source's limit side by side."""

from dataclasses import dataclass

from app.trade.calculator import Input, Output, calculator

GAUGE_WIDTH = Input("width_mm", "mm", 0.001, 25, says="width at the gauge")


@dataclass(frozen=True, slots=True)
class WidthLimit:
    """What one source says of cracks of one width."""

    source: str
    says: str
    limit_mm: float
    is_met: bool
    confidence: str


@dataclass(frozen=True, slots=True)
class WidthLimits:
    """Every source's limit, and how many of them this width meets."""

    width_mm: float
    limits: tuple[WidthLimit, ...]
    met: int
    asked: int

    @property
    def unmet(self) -> tuple[WidthLimit, ...]:
        """The limits this width falls short of."""
        return tuple(limit for limit in self.limits if not limit.is_met)


# source, what it says, limit in mm, does the limit itself count, confidence
_LIMITS = (
    ("width-lowest-bonded", "can be bonded from here", 0.05, True, "published"),
    ("width-lowest-bonded-txdot", "can be bonded from here", 0.05, True, "published"),
    ("width-force-transmitting", "smallest for load-bearing epoxy", 0.10, True, "from memory"),
    ("width-resin-must-enter", "the resin must still enter here", 0.12, True, "published"),
    ("width-lowest-bonded", "below this often hard to fill", 0.13, True, "published"),
    ("width-precast", "inject above this", 0.15, False, "published"),
)


def width_limits(width_mm: float) -> WidthLimits:
    """What each source says of this width, side by side; none is picked.

    Inputs:
        width_mm: gauge width, mm
    Result:
        limits: WidthLimits(width_mm, limits, met, asked), mm
    Errors: OutOfRange
    Source: width-lowest-bonded, width-lowest-bonded-txdot, width-force-transmitting,
        width-resin-must-enter, width-precast
    Example:
        >>> [limit.source for limit in width_limits(0.13).unmet]
        ['width-precast']
    """
    GAUGE_WIDTH.check(width_mm)
    limits = tuple(
        WidthLimit(source, says, limit, width_mm > limit or (counts and width_mm == limit), how)
        for source, says, limit, counts, how in _LIMITS
    )
    met = sum(limit.is_met for limit in limits)
    return WidthLimits(width_mm, limits, met, len(limits))


CALCULATORS = (
    calculator(
        width_limits,
        "Crack width against each source",
        (GAUGE_WIDTH,),
        (
            *(Output("width_mm", "mm"), Output("limits", "")),
            *(Output("met", "count"), Output("asked", "count")),
        ),
        tuple(dict.fromkeys(source for source, *_ in _LIMITS)),
    ),
)
