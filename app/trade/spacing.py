"""How far apart ports go: the published rules side by side. None is picked here."""

import math
from dataclasses import dataclass

from app.trade.calculator import Input, Output, calculator
from app.trade.crack import DEPTH, LENGTH, THICKNESS
from app.trade.errors import OutOfRange

SPACING = Input("spacing_mm", "mm", 10, 2000, says="distance between ports along the crack")

# Figures of the rules, trade-facts of the same names in content/sources.yaml.
EVERY_MM = 150.0
INJECTORS_MM = (200.0, 300.0)
DEFAULT_OVER_THICKNESS_MM = (400.0, 500.0)


@dataclass(frozen=True, slots=True)
class SpacingRule:
    """One rule applied to one member: its inclusive bounds (None: no bound) and who says it."""

    source: str
    says: str
    low_mm: float | None
    high_mm: float | None
    confidence: str

    def allows(self, spacing_mm: float) -> bool:
        """True when the rule leaves room for this spacing."""
        above = self.low_mm is None or spacing_mm >= self.low_mm
        return above and (self.high_mm is None or spacing_mm <= self.high_mm)


@dataclass(frozen=True, slots=True)
class SpacingRules:
    """Every rule, and how far they lie apart: the smallest and largest figure any of them names."""

    rules: tuple[SpacingRule, ...]
    smallest_mm: float
    largest_mm: float


def port_spacing_half_thickness(thickness_mm: float) -> float:
    """Spacing by the rule of half the member's thickness. Other rules say otherwise.

    Inputs:
        thickness_mm: thickness of the member, mm
    Result:
        spacing_mm: mm
    Errors: OutOfRange
    Source: spacing-half-thickness
    Example:
        >>> port_spacing_half_thickness(150)
        75.0
    """
    return THICKNESS.check(thickness_mm) / 2


def port_spacing_rules(thickness_mm: float, depth_mm: float) -> SpacingRules:
    """Every spacing rule for one member, side by side, each with its source.

    Inputs:
        thickness_mm: thickness of the member, mm
        depth_mm: depth of the crack, mm; not above the thickness
    Result:
        rules: SpacingRules(rules, smallest_mm, largest_mm), mm
    Errors: OutOfRange
    Source: spacing-half-thickness, spacing-depth, spacing-every-150,
        spacing-low-pressure-injectors, spacing-over-thickness, spacing-thickness
    Example:
        >>> rules = port_spacing_rules(150, 150)
        >>> rules.smallest_mm, rules.largest_mm
        (75.0, 500.0)
    """
    THICKNESS.check(thickness_mm)
    DEPTH.check(depth_mm)
    if depth_mm > thickness_mm:
        raise OutOfRange("depth_mm", depth_mm, DEPTH.low, thickness_mm, "mm")
    rules = (
        *_rules_from_member(thickness_mm, depth_mm),
        *_rules_with_fixed_figures(),
        _rule_over_thickness(thickness_mm),
    )
    bounds = [b for rule in rules for b in (rule.low_mm, rule.high_mm) if b is not None]
    return SpacingRules(rules, min(bounds), max(bounds))


def _rules_from_member(thickness_mm: float, depth_mm: float) -> tuple[SpacingRule, ...]:
    half = thickness_mm / 2
    practice, published, memory = "common practice", "published", "from memory"
    return (
        SpacingRule("spacing-half-thickness", "half the thickness", half, half, practice),
        SpacingRule("spacing-depth", "no more than the crack's depth", None, depth_mm, published),
        SpacingRule("spacing-thickness", "about the thickness", thickness_mm, thickness_mm, memory),
    )


def _rules_with_fixed_figures() -> tuple[SpacingRule, ...]:
    low, high = INJECTORS_MM
    injectors = "low-pressure injectors"
    return (
        SpacingRule("spacing-every-150", "a fixed spacing", EVERY_MM, EVERY_MM, "published"),
        SpacingRule("spacing-low-pressure-injectors", injectors, low, high, "published"),
    )


def _rule_over_thickness(thickness_mm: float) -> SpacingRule:
    # The default of the note holds only while it is more than the thickness.
    low, high = DEFAULT_OVER_THICKNESS_MM
    at_least = max(low, thickness_mm)
    at_most = high if thickness_mm < high else None
    words = "more than the thickness"
    return SpacingRule("spacing-over-thickness", words, at_least, at_most, "published")


def port_count(length_mm: float, spacing_mm: float) -> int:
    """Ports on a plain crack: one at each end and no gap over the spacing.

    Inputs:
        length_mm: along the crack, mm
        spacing_mm: largest distance between two ports, mm
    Result:
        count: whole number, 2 or more
    Errors: OutOfRange
    Source: ports-ends-junctions
    Example:
        >>> port_count(3000, 150), port_count(3001, 150)
        (21, 22)
    """
    LENGTH.check(length_mm)
    SPACING.check(spacing_mm)
    return gaps(length_mm, spacing_mm) + 1


def port_positions(length_mm: float, spacing_mm: float) -> tuple[float, ...]:
    """Where the ports of a plain crack go, evenly shared out from end to end.

    Inputs:
        length_mm: along the crack, mm
        spacing_mm: largest distance between two ports, mm
    Result:
        positions_mm: distance of each port from one end, mm
    Errors: OutOfRange
    Source: ports-ends-junctions
    Example:
        >>> port_positions(400, 150)
        (0.0, 133.33333333333334, 266.6666666666667, 400.0)
    """
    count = port_count(length_mm, spacing_mm)
    return tuple(length_mm * i / (count - 1) for i in range(count))


def gaps(length_mm: float, spacing_mm: float) -> int:
    """Fewest equal gaps of at most the spacing; 12 ft at 3 in is 48 gaps, rounding or not."""
    return max(1, math.ceil(float(length_mm / spacing_mm) - 1e-9))


_RULES_OUT = (Output("rules", ""), Output("smallest_mm", "mm"), Output("largest_mm", "mm"))
_RULE_SOURCES = (
    *("spacing-half-thickness", "spacing-depth", "spacing-every-150"),
    *("spacing-low-pressure-injectors", "spacing-over-thickness", "spacing-thickness"),
)
_ENDS = ("ports-ends-junctions",)
_PLAIN = (LENGTH, SPACING)

CALCULATORS = (
    calculator(
        port_spacing_half_thickness,
        "Port spacing by half the thickness",
        (THICKNESS,),
        (Output("spacing_mm", "mm"),),
        ("spacing-half-thickness",),
    ),
    calculator(
        port_spacing_rules,
        "Port spacing by every rule",
        (THICKNESS, DEPTH),
        _RULES_OUT,
        _RULE_SOURCES,
    ),
    calculator(port_count, "Number of ports", _PLAIN, (Output("count", "count"),), _ENDS),
    calculator(
        port_positions, "Where the ports go", _PLAIN, (Output("positions_mm", "mm"),), _ENDS
    ),
)
