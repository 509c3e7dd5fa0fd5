"""How much resin to have: the crack, what is lost on the way, and what was used in the end."""

from dataclasses import dataclass

from app.trade.calculator import Input, Output, calculator
from app.trade.crack import DEPTH, LENGTH, WIDTH, crack_volume

NET = Input("net_ml", "ml", 0, 1_000_000, says="volume of the crack itself")
WASTE = Input("waste", "", 0, 2, default=0, says="allowance as a share of the crack's volume")
HOLD_UP = Input("hold_up_ml", "ml", 0, 50_000, default=0, says="left in mixer and tube")
SAMPLES = Input("samples_ml", "ml", 0, 50_000, default=0, says="ratio and physical samples")

USED = Input("used_ml", "ml", 0, 1_000_000, says="resin pumped into the crack")
COMPUTED = Input("computed_ml", "ml", 0.01, 1_000_000, says="computed volume of the crack")
BAND_LOW = Input("low", "", 0, 1, says="used over computed below this: under-filled")
BAND_HIGH = Input("high", "", 1, 10, says="used over computed above this: leaking")

_ROUNDING = 1e-9  # exactly on the band's edge is plausible, whatever the last binary digit says


@dataclass(frozen=True, slots=True)
class ResinNeeded:
    """Mixed resin to have ready, by where it goes; mL."""

    net_ml: float
    waste_ml: float
    hold_up_ml: float
    samples_ml: float
    total_ml: float


@dataclass(frozen=True, slots=True)
class UsedVerdict:
    """Resin used beside resin computed: their ratio, the band asked for, and the verdict."""

    used_ml: float
    computed_ml: float
    share: float
    low: float
    high: float
    verdict: str  # under-filled | plausible | leaking
    is_within: bool


def resin_needed(
    length_mm: float,
    depth_mm: float,
    width_mm: float,
    waste: float = 0,
    hold_up_ml: float = 0,
    samples_ml: float = 0,
) -> ResinNeeded:
    """Mixed resin for a crack of constant width, with its build-up.

    Inputs:
        length_mm: along the crack, mm
        depth_mm: into the member, mm
        width_mm: gauge width, mm
        waste: allowance as a share of the crack's volume
        hold_up_ml: left standing in mixer and tube, mL
        samples_ml: ratio and physical samples, mL
    Result:
        resin: ResinNeeded(net_ml, waste_ml, hold_up_ml, samples_ml, total_ml), mL
    Errors: OutOfRange
    Source: crack-volume-geometry, waste-allowance, hold-up, physical-sample
    Example:
        >>> resin_needed(10_000, 200, 0.3, waste=0.15).total_ml
        690.0
    """
    LENGTH.check(length_mm)
    net = crack_volume(length_mm, depth_mm, width_mm)
    return resin_for_volume(net, waste, hold_up_ml, samples_ml)


def resin_for_volume(
    net_ml: float, waste: float = 0, hold_up_ml: float = 0, samples_ml: float = 0
) -> ResinNeeded:
    """Mixed resin for a crack whose volume is known: tapering, measured, or several together.

    Inputs:
        net_ml: volume of the crack, mL
        waste: allowance as a share of the crack's volume
        hold_up_ml: left standing in mixer and tube, mL
        samples_ml: ratio and physical samples, mL
    Result:
        resin: ResinNeeded(net_ml, waste_ml, hold_up_ml, samples_ml, total_ml), mL
    Errors: OutOfRange
    Source: waste-allowance, hold-up, physical-sample
    Example:
        >>> resin_for_volume(600, waste=0.1, hold_up_ml=60, samples_ml=200).total_ml
        920.0
    """
    NET.check(net_ml)
    WASTE.check(waste)
    HOLD_UP.check(hold_up_ml)
    SAMPLES.check(samples_ml)
    lost = net_ml * waste
    total = net_ml + lost + hold_up_ml + samples_ml
    return ResinNeeded(net_ml, lost, hold_up_ml, samples_ml, total)


def used_against_computed(
    used_ml: float, computed_ml: float, low: float, high: float
) -> UsedVerdict:
    """Is the resin used plausible for the crack? The band is the project's, not a published one.

    Inputs:
        used_ml: pumped into the crack, without waste and samples, mL
        computed_ml: computed volume of the crack, mL
        low: used over computed below this is under-filled; share up to 1
        high: used over computed above this is leaking; share from 1
    Result:
        verdict: UsedVerdict(used_ml, computed_ml, share, low, high, verdict, is_within)
    Errors: OutOfRange
    Source: quantity-used, used-band
    Example:
        >>> used_against_computed(450, 600, 0.9, 1.5).verdict
        'under-filled'
    """
    USED.check(used_ml)
    COMPUTED.check(computed_ml)
    BAND_LOW.check(low)
    BAND_HIGH.check(high)
    share = used_ml / computed_ml
    below, above = share < low - _ROUNDING, share > high + _ROUNDING
    verdict = "under-filled" if below else "leaking" if above else "plausible"
    within = verdict == "plausible"
    return UsedVerdict(used_ml, computed_ml, share, low, high, verdict, within)


_PARTS_OF_TOTAL = ("net_ml", "waste_ml", "hold_up_ml", "samples_ml", "total_ml")
_NEEDED = tuple(Output(name, "ml") for name in _PARTS_OF_TOTAL)
_VERDICT = (
    *(Output("used_ml", "ml"), Output("computed_ml", "ml"), Output("share", "")),
    *(Output("low", ""), Output("high", ""), Output("verdict", ""), Output("is_within", "")),
)
_LOSSES = (WASTE, HOLD_UP, SAMPLES)
_BAND = (USED, COMPUTED, BAND_LOW, BAND_HIGH)
_LOSS_SOURCES = ("waste-allowance", "hold-up", "physical-sample")

CALCULATORS = (
    calculator(
        resin_needed,
        "Resin to have for a crack",
        (LENGTH, DEPTH, WIDTH, *_LOSSES),
        _NEEDED,
        ("crack-volume-geometry", *_LOSS_SOURCES),
    ),
    calculator(
        resin_for_volume, "Resin to have for a volume", (NET, *_LOSSES), _NEEDED, _LOSS_SOURCES
    ),
    calculator(
        used_against_computed,
        "Resin used against computed",
        _BAND,
        _VERDICT,
        ("quantity-used", "used-band"),
    ),
)
