"""A plausible observation for the story: everything done, measured values inside their limits."""

from collections.abc import Mapping
from datetime import datetime
from decimal import Decimal
from itertools import pairwise
from typing import Any

from app.curriculum.model import ChecklistItem, Curriculum
from app.curriculum.rules import check_rule
from app.records.observation import Measured, Observation, PortEntry, Signature, StepOutcome
from app.trade.lengths import read_quantity
from app.trade.registry import CALCULATORS
from app.trade.units import BASE_UNITS

# What the invented trainers measured, as they would type it. "{…}" is taken from the job.
MEASURED = {
    "wall_temperature": "18 c", "first_pressure": "20 psi", "highest_pressure": "32 psi",
    "minutes_in_tube": "9 min", "tube_temperature": "20 c", "widest_gap": "{spacing} mm",
    "ports_set": "60", "temperature_a": "20 c", "temperature_b": "20 c", "purged_volume": "900 ml",
    "hose_diameter": "10 mm", "hose_length": "3 m", "start_pressure": "32 psi",
    "end_pressure": "31 psi", "waited": "3 min", "least_pressure": "30 psi", "least_wait": "3 min",
    "rated_airflow": "150 cfm", "wheel": "4.5 in", "eyewash_path": "30 ft", "sheet_lowest": "8 c",
    "sheet_highest": "32 c", "paste_a": "100 ml", "paste_b": "101 ml", "sheet_parts_a": "1",
    "sheet_parts_b": "1", "placed_after": "18 min", "paste_pot_life": "30 min",
    "narrowest_seal": "30 mm", "width_asked": "25 mm", "thinnest_seal": "3 mm",
    "thickness_asked": "2 mm", "cure_time": "20 h", "sheet_cure_time": "12 h",
    "thinnest_width": "0.2 mm", "band_width": "55 mm", "concrete_temperature": "17 c",
    "sample_a": "100 ml", "sample_b": "{ratio_b} ml", "last_sample_a": "100 ml",
    "last_sample_b": "{ratio_b} ml", "used_volume": "{used} ml",
}  # fmt: skip
MEANING = "I watched this repair and stand by what is written here."


def job_values(job: Mapping[str, Any], resin: Mapping[str, Any]) -> dict[str, Any]:
    """The values a rule may use, by the names content gives them."""
    sizes = ("length_mm", "depth_mm", "thickness_mm", "width_mm", "spacing_mm", "port_kind")
    found = {f"job_{name}": job[name] for name in sizes}
    sheet = {f"resin_{k}": v for k, v in resin.items() if k not in ("name", "sheet")}
    return {**found, **sheet}


def observation(
    curriculum: Curriculum,
    qualification: str,
    job: Mapping[str, Any],
    resin: Mapping[str, Any],
    trainer: str,
    signed_at: datetime,
) -> Observation:
    """Everything done unprompted; raises AssertionError if a value is outside its limits."""
    given = job_values(job, resin)
    items: list[StepOutcome] = []
    measured: list[Measured] = []
    for module_id in curriculum.qualification(qualification).checklist_modules():
        for item in curriculum.module(module_id).checklist:
            values = _measured(item, job, resin)
            verdict = check_rule(item, {**given, **values}, CALCULATORS)
            assert verdict is None or verdict.is_within, f"demo: {item.id} is out of limits"
            items.append(_outcome(module_id, item, verdict))
            measured += [_kept(module_id, item, name, value) for name, value in values.items()]
    return Observation(
        items=tuple(items),
        judgement="works-safely-alone",
        signature=Signature(
            printed_name=trainer, meaning=MEANING, signed_at=signed_at, language="en"
        ),
        measured=tuple(measured),
        ports=_ports() if qualification == "lead-injector" else (),
        comment="Demo record, all invented.",
    )


def _measured(
    item: ChecklistItem, job: Mapping[str, Any], resin: Mapping[str, Any]
) -> dict[str, Any]:
    crack_ml = job["length_mm"] * job["depth_mm"] * job["width_mm"] / 1000
    places = {
        "spacing": job["spacing_mm"],
        "ratio_b": f"{100 * resin['parts_b'] / resin['parts_a'] * 1.01:.4g}",
        "used": f"{crack_ml * 1.1:.0f}",
    }
    found = {}
    for measure in item.measures:
        text = MEASURED[measure.id].format(**places)
        found[measure.id] = read_quantity(text, measure.quantity, measure.unit).value
    return found


def _outcome(module_id: str, item: ChecklistItem, verdict: Any) -> StepOutcome:
    return StepOutcome(
        step=item.id,
        module=module_id,
        outcome="done",
        critical=item.critical,
        rule_met=None if verdict is None else verdict.is_within,
    )


def _kept(module_id: str, item: ChecklistItem, name: str, value: Any) -> Measured:
    unit = {m.id: BASE_UNITS[m.quantity] for m in item.measures}[name]
    text = format(Decimal(str(round(float(value), 6))).normalize(), "f")
    return Measured(name=name, value=text, unit=unit, module=module_id, step=item.id)


def _ports() -> tuple[PortEntry, ...]:
    times = ("09:02", "09:10", "09:19", "09:27", "09:38", "09:46")
    return tuple(
        PortEntry(port=n, next_port=n + 1, opened_at=opened, shown_at=shown, pressure_mpa="0.14")
        for n, (opened, shown) in enumerate(pairwise(times), start=1)
    )
