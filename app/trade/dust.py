"""Silica dust: the grinder table of 29 CFR 1926.1153, and compressed air.

Table 1 (xii), handheld grinders for other work than mortar removal, with shroud and dust collector.
The table answers only when every condition of its row is kept; dust_collector.py checks those.
"""

from dataclasses import dataclass
from typing import Final

from app.trade.calculator import Calculator, Input, Output, calculator
from app.trade.units import PSI_MPA

INDOORS = Input("indoors", "", None, None, kind="flag", says="or in an enclosed area")
HOURS = Input("hours", "h", 0, 24, says="grinding in one shift")
IN_PLACE = Input("controls_in_place", "", None, None, kind="flag", says="every condition kept")
WORN = Input("worn_apf", "", 0, 10_000, says="assigned protection factor worn; 0 for none")


AIR = Input("pressure_mpa", "mpa", 0, 2, says="at the nozzle")
CAPTURED = Input("is_dust_captured", "", None, None, kind="flag", says="by a ventilation system")
GUARDED = Input("has_guard_and_gear", "", None, None, kind="flag", says="chip guard and PPE")
# 29 CFR 1926.302(b)(4): less than 30 psi.
AIR_BELOW_MPA: Final = float(30 * PSI_MPA)


@dataclass(frozen=True, slots=True)
class GrinderRow:
    """One cell of the table: hours above the first bound, up to and including the second."""

    indoors: bool
    over_h: float
    to_h: float
    apf: int  # least assigned protection factor; 0 is no respirator


GRINDER_TABLE: Final = (
    GrinderRow(indoors=False, over_h=-1, to_h=4, apf=0),
    GrinderRow(indoors=False, over_h=4, to_h=24, apf=0),
    GrinderRow(indoors=True, over_h=-1, to_h=4, apf=0),
    GrinderRow(indoors=True, over_h=4, to_h=24, apf=10),
)


@dataclass(frozen=True, slots=True)
class Respirator:
    """The table's answer."""

    answer: str  # none | apf-10 | table-does-not-apply
    apf: int | None  # None: the table gives none; exposure has to be assessed
    table_applies: bool


@dataclass(frozen=True, slots=True)
class RespiratorCheck:
    """What is worn against the table's answer."""

    answer: str
    worn_apf: float
    is_within: bool  # the table applies and what is worn is enough


@dataclass(frozen=True, slots=True)
class CompressedAir:
    """What speaks against blowing a surface off."""

    problems: tuple[str, ...]  # dust, pressure, guard
    below_mpa: float
    is_within: bool


def respirator_for_grinding(indoors: bool, hours: float, controls_in_place: bool) -> Respirator:
    """Which respirator the table asks for, or that the table does not apply.

    Inputs:
        indoors: true indoors or in an enclosed area
        hours: grinding in one shift, h
        controls_in_place: true when every condition of the table is kept (table_1_conditions)
    Result:
        answer: none, apf-10, or table-does-not-apply
        apf: least assigned protection factor, 0 for none; None when the table does not apply and
            the exposure has to be assessed
        table_applies: controls_in_place
    Errors: OutOfRange outside the bounds of hours; NotAChoice for a flag neither true nor false.
    Source: grinder-table
    Example:
        >>> respirator_for_grinding(True, 4.01, True).answer
        'apf-10'
    """
    INDOORS.check_flag(indoors)
    HOURS.check(hours)
    if not IN_PLACE.check_flag(controls_in_place):
        return Respirator("table-does-not-apply", None, table_applies=False)
    row = next(r for r in GRINDER_TABLE if r.indoors == indoors and r.over_h < hours <= r.to_h)
    return Respirator(f"apf-{row.apf}" if row.apf else "none", row.apf, table_applies=True)


def respirator_check(
    indoors: bool, hours: float, controls_in_place: bool, worn_apf: float
) -> RespiratorCheck:
    """What is worn against the table's answer; never within when the table does not apply.

    Inputs:
        indoors: true indoors or in an enclosed area
        hours: grinding in one shift, h
        controls_in_place: true when every condition of the table is kept
        worn_apf: assigned protection factor of what is worn, 0 for none
    Result:
        answer: none, apf-10, or table-does-not-apply
        worn_apf: as given
        is_within: the table applies and what is worn is enough
    Errors: OutOfRange outside the bounds of its inputs; NotAChoice for a flag neither true nor
        false.
    Source: grinder-table
    Example:
        >>> respirator_check(True, 6, True, 0).is_within
        False
    """
    asked = respirator_for_grinding(indoors, hours, controls_in_place)
    is_enough = WORN.check(worn_apf) >= asked.apf if asked.apf is not None else False
    return RespiratorCheck(asked.answer, worn_apf, is_enough)


def compressed_air_check(
    pressure_mpa: float, is_dust_captured: bool, has_guard_and_gear: bool
) -> CompressedAir:
    """May this surface be blown off? Vacuum is the better answer wherever it works.

    Inputs:
        pressure_mpa: at the nozzle, MPa
        is_dust_captured: true when a ventilation system takes up the dust that is raised
        has_guard_and_gear: true with chip guarding and protective gear
    Result:
        problems: words for what is wrong: dust, pressure, guard
        below_mpa: the pressure has to be less than this, 30 psi, MPa
        is_within: nothing is wrong
    Errors: OutOfRange outside the bounds of pressure_mpa; NotAChoice for a flag neither true nor
        false.
    Source: compressed-air-silica, compressed-air-pressure
    Example:
        >>> compressed_air_check(0.6, False, True).problems
        ('dust', 'pressure')
    """
    kept = {
        "dust": CAPTURED.check_flag(is_dust_captured),
        "pressure": AIR.check(pressure_mpa) < AIR_BELOW_MPA,
        "guard": GUARDED.check_flag(has_guard_and_gear),
    }
    problems = tuple(name for name, is_kept in kept.items() if not is_kept)
    return CompressedAir(problems, AIR_BELOW_MPA, is_within=not problems)


_TABLE = ("grinder-table",)
_ANSWER = (Output("answer", ""), Output("apf", ""), Output("table_applies", ""))
_CHECK = (Output("answer", ""), Output("worn_apf", ""), Output("is_within", ""))

CALCULATORS: tuple[Calculator, ...] = (
    calculator(
        respirator_for_grinding,
        "Respirator for grinding",
        (INDOORS, HOURS, IN_PLACE),
        _ANSWER,
        _TABLE,
    ),
    calculator(
        respirator_check,
        "Is the respirator enough for grinding",
        (INDOORS, HOURS, IN_PLACE, WORN),
        _CHECK,
        _TABLE,
    ),
    calculator(
        compressed_air_check,
        "May the surface be blown off",
        (AIR, CAPTURED, GUARDED),
        (Output("problems", ""), Output("below_mpa", "mpa"), Output("is_within", "")),
        ("compressed-air-silica", "compressed-air-pressure"),
    ),
)
