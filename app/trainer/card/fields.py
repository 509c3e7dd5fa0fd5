"""The fields of the job card's options, group by group: words, quantity, unit, bounds."""

from dataclasses import dataclass
from typing import Any

from flask_babel import lazy_gettext as _l

from app.trade.batch_clock import PLACING, TESTED
from app.trade.calculator import Input
from app.trade.dust_collector import WHEEL
from app.trade.losses import (
    MIXER_DIAMETER,
    MIXER_LENGTH,
    PER_SAMPLE,
    PER_TEST,
    PHYSICAL,
    RATIO_TESTS,
    TIMES_USED,
    TUBE_DIAMETER,
    TUBE_LENGTH,
)
from app.trade.port_layout import ISLAND_SPACING
from app.trade.pot_life import TEMPERATURE
from app.trade.pump import HOSE_LENGTH, INNER_DIAMETER
from app.trade.radial_flow import PORT_RADIUS
from app.trade.resin import WASTE
from app.trade.seal import HEIGHT, INNER, OUTER, SEAL_THICKNESS, SEAL_WASTE, SEAL_WIDTH
from app.trade.slot_flow import PRESSURE
from app.trade.vapour import SPACE
from app.trade.viscosity import DOUBLING
from app.trainer.card.site import ML_IN_M3

NOT_KNOWN = _l("Not known yet")


@dataclass(frozen=True, slots=True)
class Asked:
    """One quantity asked for: the plan's name, its words, how it is typed, between which bounds."""

    name: str  # as in card_plan.Plan
    label: Any
    quantity: str
    bounds: Input
    hint: Any = ""
    unit: str | None = None


@dataclass(frozen=True, slots=True)
class Chosen:
    """One choice; nothing chosen leaves it open."""

    name: str
    label: Any
    options: tuple[tuple[str, Any], ...]
    hint: Any = ""
    none: Any = NOT_KNOWN


OPENING = Input("port_opening_mm", "mm", 2 * PORT_RADIUS.low, 2 * PORT_RADIUS.high)  # type: ignore[operator]
GRINDING = Input("grinding_min", "min", 0, 1440)
AIR = Input("space_ml", "ml", SPACE.low * ML_IN_M3, SPACE.high * ML_IN_M3)  # type: ignore[operator]

RESIN: tuple[Asked | Chosen, ...] = (
    Asked(
        *("resin_temperature_c", _l("Temperature of the resin"), "temperature", TEMPERATURE),
        _l("As in 68 °F."),
    ),
    Asked("waste", _l("Waste, as a share of the crack"), "share", WASTE, _l("As in 15 %."), "%"),
    Chosen(
        *("mixing", _l("How it is mixed")),
        (("pump", _l("By the pump")), ("hand", _l("By hand, in batches"))),
    ),
    Asked(
        *("placing_ml_per_min", _l("How fast you place it"), "flow", PLACING),
        _l("For batches. As in 2 fl oz/min or 60 mL/min."),
    ),
    Asked(
        *("tested_ml", _l("Batch the pot life was measured on"), "volume", TESTED),
        _l("From the data sheet. As in 200 mL."),
    ),
)
PUMP: tuple[Asked | Chosen, ...] = (
    Asked(
        *("pressure_mpa", _l("Pressure at the port"), "pressure", PRESSURE),
        _l("The one the engineer set. As in 30 psi."),
    ),
    Asked(
        *("port_opening_mm", _l("Opening of the port onto the crack"), "length", OPENING),
        _l("Across the hole. As in 1/4 in."),
    ),
    Asked(
        *("doubling_min", _l("Time in which the viscosity doubles"), "time", DOUBLING),
        _l("From the data sheet. Left empty, the card counts no thickening and says so."),
    ),
    Asked("hose_diameter_mm", _l("Hose, inside across"), "length", INNER_DIAMETER),
    Asked("hose_length_mm", _l("Length of one hose"), "length", HOSE_LENGTH),
    Asked("mixer_diameter_mm", _l("Mixer, inside across"), "length", MIXER_DIAMETER),
    Asked("mixer_length_mm", _l("Length of the mixer"), "length", MIXER_LENGTH),
    Asked("tube_diameter_mm", _l("Tube to the port, inside across"), "length", TUBE_DIAMETER),
    Asked("tube_length_mm", _l("Length of that tube"), "length", TUBE_LENGTH),
    Asked("mixers", _l("Mixers you will use up"), "count", TIMES_USED),
)
SAMPLES: tuple[Asked | Chosen, ...] = (
    Asked("ratio_tests", _l("Ratio tests"), "count", RATIO_TESTS),
    Asked("per_test_ml", _l("One ratio test, both sides"), "volume", PER_TEST),
    Asked("physical_samples", _l("Samples kept to cure"), "count", PHYSICAL),
    Asked("per_sample_ml", _l("One sample kept"), "volume", PER_SAMPLE),
)
SEAL: tuple[Asked | Chosen, ...] = (
    Asked("seal_width_mm", _l("Width of the seal"), "length", SEAL_WIDTH),
    Asked("seal_thickness_mm", _l("Thickness of the seal"), "length", SEAL_THICKNESS),
    Chosen("seal_sides", _l("Faces sealed"), (("1", _l("One")), ("2", _l("Both")))),
    Asked("seal_waste", _l("Waste of paste"), "share", SEAL_WASTE, _l("As in 20 %."), "%"),
    Asked("collar_outer_mm", _l("Collar at a port, outside across"), "length", OUTER),
    Asked("collar_foot_mm", _l("Foot of the port, across"), "length", INNER),
    Asked("collar_height_mm", _l("Height of the collar"), "length", HEIGHT),
)
SITE: tuple[Asked | Chosen, ...] = (
    Chosen(
        *("grinding", _l("Grinding")),
        (
            ("indoors", _l("Indoors or enclosed")),
            ("outdoors", _l("Outdoors")),
            ("none", _l("None")),
        ),
    ),
    Asked("grinding_min", _l("Grinding in one shift"), "time", GRINDING, _l("As in 2 h.")),
    Chosen(
        *("controls", _l("Shroud, collector and every other listed control")),
        (("yes", _l("All in place")), ("no", _l("Not all"))),
    ),
    Asked("wheel_mm", _l("Wheel, across"), "length", WHEEL, _l("As in 5 in.")),
    Chosen(
        *("solvent", _l("Solvent for the flush")),
        (("xylene", _l("Xylene")), ("toluene", _l("Toluene")), ("other", _l("Another"))),
    ),
    Asked(
        *("space_ml", _l("Air in the room"), "volume", AIR),
        _l("Length × width × height. As in 1800 ft3."),
    ),
)
ISLANDS_CLOSE = Asked(
    *("island_spacing_mm", _l("Spacing around islands"), "length", ISLAND_SPACING),
    _l("Left empty: half the spacing."),
)
START_AT = Chosen(
    "start_at",
    _l("Where work begins"),
    (
        ("last-end", _l("At the last end")),
        ("widest", _l("At the widest part")),
    ),
    _l("A crack up a wall begins at its lowest port."),
    none=_l("At the first end"),
)

GROUPS: tuple[tuple[str, Any, tuple[Asked | Chosen, ...]], ...] = (
    ("resin", _l("The resin"), RESIN),
    ("pump", _l("Pump, hose and mixer"), PUMP),
    ("samples", _l("Samples"), SAMPLES),
    ("seal", _l("The seal"), SEAL),
    ("site", _l("Dust and air"), SITE),
)
