"""Two invented resins, two invented sites, and the jobs there."""

from typing import Any

RESINS: dict[str, dict[str, Any]] = {
    "heron": {
        "name": "Heron Two (invented)",
        "sheet": "Heron Two product data sheet, invented for this demo",
        "parts_a": 2.0,
        "parts_b": 1.0,
        "ratio_tolerance": 0.05,
        "density_a_g_per_ml": 1.15,
        "density_b_g_per_ml": 0.98,
        "viscosity_pa_s": 0.3,
        "pot_life_min": 30.0,
        "pot_life_reference_c": 21.0,
        "gel_time_min": 70.0,
        "min_temperature_c": 10.0,
        "max_temperature_c": 30.0,
        "max_pressure_mpa": 0.3,
    },
    "plover": {
        "name": "Plover One (invented)",
        "sheet": "Plover One product data sheet, invented for this demo",
        "parts_a": 1.0,
        "parts_b": 1.0,
        "ratio_tolerance": 0.05,
        "density_a_g_per_ml": 1.12,
        "density_b_g_per_ml": 1.02,
        "viscosity_pa_s": 0.5,
        "pot_life_min": 45.0,
        "pot_life_reference_c": 21.0,
        "gel_time_min": None,  # the sheet does not say: pages must leave the line open
        "min_temperature_c": 10.0,
        "max_temperature_c": 32.0,
        "max_pressure_mpa": 0.28,
    },
}

PUMP_HOUSE = "Mallard Creek pump house (invented)"
DECK = "Third Level parking deck (invented)"


def _job(site: str, structure: str, resin: str, **values: Any) -> dict[str, Any]:
    usual = {
        "orientation": "vertical",
        "access": "one",
        "length_mm": 3657.6,
        "thickness_mm": 203.2,
        "depth_mm": 203.2,
        "width_mm": 0.508,
        "spacing_mm": 101.6,
        "spacing_rule": "spacing-half-thickness",
        "spacing_chosen_by": "the engineer of record (invented)",
        "port_kind": "surface",
        "note": "Demo: everything about this job is invented.",
    }
    return {"site": site, "structure": structure, "resin": resin, **usual, **values}


JOBS: dict[str, dict[str, Any]] = {
    "north-wall": _job(PUMP_HOUSE, "North wall, crack from floor to ceiling", "heron"),
    "south-wall": _job(PUMP_HOUSE, "South wall by the pump pit", "heron", length_mm=2743.2),
    "sump": _job(
        PUMP_HOUSE, "Sump wall, both faces open", "plover",
        access="both", length_mm=1828.8, thickness_mm=304.8, depth_mm=304.8,
        spacing_mm=152.4, width_mm=0.381,
    ),
    "ramp-beam": _job(
        DECK, "Ramp beam, web crack", "heron",
        length_mm=1524.0, thickness_mm=254.0, depth_mm=254.0, spacing_mm=127.0, width_mm=0.254,
    ),
    "slab-edge": _job(
        DECK, "Slab edge at grid line C", "plover",
        orientation="horizontal", length_mm=4267.2, thickness_mm=152.4, depth_mm=152.4,
        spacing_mm=76.2, width_mm=0.4064,
    ),
    "soffit": _job(
        DECK, "Soffit beside the drain", "heron",
        orientation="overhead", length_mm=1219.2, thickness_mm=177.8, depth_mm=177.8,
        spacing_mm=88.9, width_mm=0.3048, crew_set="overhead",
    ),
    "stair-wall": _job(
        DECK, "Stair wall, landing to landing", "heron",
        length_mm=2438.4, crew_set="hand-cartridges",
    ),
    "wing-wall": _job(PUMP_HOUSE, "Wing wall, outside face", "plover", length_mm=3048.0),
}  # fmt: skip
