"""The plan of a job card as values: what was typed, read. Nothing typed is None. No Flask."""

from dataclasses import dataclass, fields

from app.trade.calculator import Point

Path = tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything the card needs beside the job and the data sheet. Units in the names."""

    # the crack
    path: Path | None = None
    branches: tuple[Path, ...] = ()
    islands: tuple[Path, ...] = ()
    island_spacing_mm: float | None = None
    gauges: Path | None = None  # (place along the crack, width there), mm
    start_at: str = ""
    # the resin
    resin_temperature_c: float | None = None
    waste: float | None = None
    mixing: str = ""  # pump | hand
    placing_ml_per_min: float | None = None
    start_min: float | None = None  # minutes after midnight
    tested_ml: float | None = None
    # pump, hose, mixer
    pressure_mpa: float | None = None
    port_opening_mm: float | None = None
    doubling_min: float | None = None
    hose_diameter_mm: float | None = None
    hose_length_mm: float | None = None
    mixer_diameter_mm: float | None = None
    mixer_length_mm: float | None = None
    tube_diameter_mm: float | None = None
    tube_length_mm: float | None = None
    mixers: float | None = None
    # samples
    ratio_tests: float | None = None
    per_test_ml: float | None = None
    physical_samples: float | None = None
    per_sample_ml: float | None = None
    # the seal
    seal_width_mm: float | None = None
    seal_thickness_mm: float | None = None
    seal_sides: str = ""  # 1 | 2
    seal_waste: float | None = None
    collar_outer_mm: float | None = None
    collar_foot_mm: float | None = None
    collar_height_mm: float | None = None
    # dust and air
    grinding: str = ""  # none | indoors | outdoors
    grinding_min: float | None = None
    controls: str = ""  # yes | no
    wheel_mm: float | None = None
    solvent: str = ""  # xylene | toluene | other
    space_ml: float | None = None

    def number(self, name: str) -> float | None:
        """The value called `name`."""
        found = getattr(self, name)
        return None if found is None else float(found)


NAMES = tuple(field.name for field in fields(Plan))
