"""Shroud and dust collector of a grinder: the conditions of table 1 in 29 CFR 1926.1153."""

from dataclasses import dataclass
from typing import Final

from app.trade.calculator import Calculator, Input, Output, calculator
from app.trade.conditions import limits_outputs
from app.trade.limits import Limits
from app.trade.units import INCH_MM, UNITS

WHEEL = Input("wheel_mm", "mm", 25, 400, says="diameter of the grinding wheel")
AIRFLOW = Input("airflow_m3_per_h", "m3_per_h", 0, 5000, says="of the dust collector")
FILTER = Input("filter_share", "", 0, 1, says="share of dust the filter holds")
SHROUD = Input("has_shroud", "", None, None, kind="flag", says="on sale for this grinder")
AS_INSTRUCTED = Input("is_as_instructed", "", None, None, kind="flag", says="as the maker says")
CLEANING = Input("cleans_filter", "", None, None, kind="flag", says="or a cyclone before it")
EXHAUST = Input("has_exhaust", "", None, None, kind="flag", says="visible dust is led away")
INDOORS = Input("indoors", "", None, None, kind="flag", says="or in an enclosed area")

# 25 cubic feet a minute for each inch of wheel, and a filter of 99 % or better.
AIRFLOW_PER_WHEEL_MM: Final = float(25 * UNITS["cfm"].factor / INCH_MM)
FILTER_LEAST: Final = 0.99


@dataclass(frozen=True, slots=True)
class TableConditions:
    """Whether the table may be used, and what stands in the way."""

    missing: tuple[str, ...]  # shroud, instructions, airflow, filter, filter-cleaning, exhaust
    needed_m3_per_h: float
    is_within: bool


def collector_airflow(wheel_mm: float) -> float:
    """The least airflow of a dust collector: 25 cfm for each inch of wheel diameter.

    Inputs:
        wheel_mm: diameter of the grinding wheel, mm
    Result:
        airflow_m3_per_h: m³/h
    Errors: OutOfRange outside the bounds of its input.
    Source: collector-airflow
    Example:
        >>> round(collector_airflow(127))
        212
    """
    return AIRFLOW_PER_WHEEL_MM * WHEEL.check(wheel_mm)


def collector_check(airflow_m3_per_h: float, wheel_mm: float) -> Limits:
    """A dust collector's airflow against the least for the wheel.

    Inputs:
        airflow_m3_per_h: of the dust collector, m³/h
        wheel_mm: diameter of the grinding wheel, mm
    Result: Limits in m³/h with a lower limit only.
    Errors: OutOfRange outside the bounds of its inputs.
    Source: collector-airflow
    Example:
        >>> collector_check(200, 127).is_within
        False
    """
    return Limits(AIRFLOW.check(airflow_m3_per_h), collector_airflow(wheel_mm), None, "m3_per_h")


def table_1_conditions(
    has_shroud: bool,
    is_as_instructed: bool,
    airflow_m3_per_h: float,
    wheel_mm: float,
    filter_share: float,
    cleans_filter: bool,
    indoors: bool,
    has_exhaust: bool,
) -> TableConditions:
    """Is every listed control fully in place? One missing, and the table does not apply.

    Inputs:
        has_shroud: true when the grinder has a shroud on sale for it, and a dust collector
        is_as_instructed: true when both are used and kept as their makers say
        airflow_m3_per_h: of the dust collector, m³/h
        wheel_mm: diameter of the grinding wheel, mm
        filter_share: share of dust the filter holds, 0 to 1
        cleans_filter: true when the collector cleans its filter or has a cyclone before it
        indoors: true indoors or in an enclosed area
        has_exhaust: true when visible dust is led away; asked of indoor work only
    Result:
        missing: words for what is not in place, in the order of the arguments
        needed_m3_per_h: least airflow for the wheel, m³/h
        is_within: nothing is missing
    Errors: OutOfRange outside the bounds of its inputs; NotAChoice for a flag neither true nor
        false.
    Source: grinder-table, collector-airflow
    Example:
        >>> table_1_conditions(True, True, 250, 127, 0.97, True, False, False).missing
        ('filter',)
    """
    collector = collector_check(airflow_m3_per_h, wheel_mm)
    kept = {
        "shroud": SHROUD.check_flag(has_shroud),
        "instructions": AS_INSTRUCTED.check_flag(is_as_instructed),
        "airflow": collector.is_within,
        "filter": FILTER.check(filter_share) >= FILTER_LEAST,
        "filter-cleaning": CLEANING.check_flag(cleans_filter),
        "exhaust": EXHAUST.check_flag(has_exhaust) or not INDOORS.check_flag(indoors),
    }
    missing = tuple(name for name, is_kept in kept.items() if not is_kept)
    return TableConditions(missing, collector_airflow(wheel_mm), is_within=not missing)


_AIRFLOW = ("collector-airflow",)

CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        collector_airflow,
        "Airflow of a dust collector",
        (WHEEL,),
        (Output("airflow_m3_per_h", "m3_per_h"),),
        _AIRFLOW,
    ),
    calculator(
        collector_check,
        "Does the dust collector draw enough",
        (AIRFLOW, WHEEL),
        limits_outputs("m3_per_h"),
        _AIRFLOW,
    ),
    calculator(
        table_1_conditions,
        "May the grinder table be used",
        (SHROUD, AS_INSTRUCTED, AIRFLOW, WHEEL, FILTER, CLEANING, INDOORS, EXHAUST),
        (Output("missing", ""), Output("needed_m3_per_h", "m3_per_h"), Output("is_within", "")),
        ("grinder-table", "collector-airflow"),
    ),
)
