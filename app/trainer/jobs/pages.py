"""What the pages of jobs need: the spacing rules, the amounts, the pot life. No Flask here."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from app.curriculum.model import Curriculum, Source
from app.trade.errors import Refusal
from app.trade.mixing import MassParts, Parts, split_by_volume, weigh_out
from app.trade.pot_life import PotLifeBand, pot_life_band
from app.trade.resin import ResinNeeded, resin_needed
from app.trade.spacing import SpacingRule, port_count, port_spacing_rules
from app.workbook.jobs import Job
from app.workbook.resins import Resin


@dataclass(frozen=True, slots=True)
class RuleLine:
    """One spacing rule with who says it, and how the spacing chosen lies to it.

    `place`: inside, tighter or wider; "" where no spacing is chosen yet.
    """

    rule: SpacingRule
    source: Source
    place: str


def rule_lines(
    curriculum: Curriculum, thickness_mm: float, depth_mm: float, spacing_mm: float | None = None
) -> list[RuleLine]:
    """Every spacing rule for a member, side by side; none where the sizes are out of range."""
    try:
        rules = port_spacing_rules(thickness_mm, depth_mm).rules
    except Refusal:
        return []
    return [
        RuleLine(rule, curriculum.source(rule.source), _place(rule, spacing_mm)) for rule in rules
    ]


def _place(rule: SpacingRule, spacing_mm: float | None) -> str:
    if spacing_mm is None:
        return ""
    if rule.allows(spacing_mm):
        return "inside"
    return "tighter" if rule.low_mm is not None and spacing_mm < rule.low_mm else "wider"


@dataclass(frozen=True, slots=True)
class JobPage:
    """A job's facts and amounts. A part is None where a value for it is missing.

    `open_amounts`: waste, hold_up or samples not given yet; `missing_parts`, `missing_mass` and
    `missing_life`: the lines of the data sheet, or the temperature, that are not there.
    """

    job: Job
    resin: Resin
    rules: list[RuleLine]
    ports: int
    needed: ResinNeeded
    open_amounts: tuple[str, ...]
    parts: Parts | None
    missing_parts: tuple[str, ...]
    mass: MassParts | None
    missing_mass: tuple[str, ...]
    life: PotLifeBand | None
    missing_life: tuple[str, ...]


AMOUNTS = ("waste", "hold_up", "samples")


def job_page(
    curriculum: Curriculum, job: Job, resin: Resin, asked: Mapping[str, Fraction | None]
) -> JobPage:
    """Work out a job's page. `asked`: waste, hold_up, samples, temperature; None: not given."""
    given = {name: float(asked.get(name) or 0) for name in AMOUNTS}
    needed = resin_needed(
        job.length_mm,
        job.depth_mm,
        job.width_mm,
        waste=given["waste"],
        hold_up_ml=given["hold_up"],
        samples_ml=given["samples"],
    )
    parts = _missing(resin, "parts_a", "parts_b")
    mass = (*parts, *_missing(resin, "density_a_g_per_ml", "density_b_g_per_ml"))
    life = _missing(resin, "pot_life_min", "pot_life_reference_c")
    temperature = asked.get("temperature")
    if temperature is None:
        life = (*life, "temperature")
    return JobPage(
        job=job,
        resin=resin,
        rules=rule_lines(curriculum, job.thickness_mm, job.depth_mm, job.spacing_mm),
        ports=port_count(job.length_mm, job.spacing_mm),
        needed=needed,
        open_amounts=tuple(name for name in AMOUNTS if asked.get(name) is None),
        parts=None if parts else _parts(resin, needed.total_ml),
        missing_parts=parts,
        mass=None if mass else _mass(resin, needed.total_ml),
        missing_mass=mass,
        life=None if temperature is None or life else life_at(resin, float(temperature)),
        missing_life=life,
    )


def _missing(resin: Resin, *names: str) -> tuple[str, ...]:
    return tuple(name for name in names if resin.values.value(name) is None)


def _parts(resin: Resin, total_ml: float) -> Parts:
    values = resin.values
    assert values.parts_a is not None
    assert values.parts_b is not None
    return split_by_volume(total_ml, values.parts_a, values.parts_b)


def _mass(resin: Resin, total_ml: float) -> MassParts:
    names = ("parts_a", "parts_b", "density_a_g_per_ml", "density_b_g_per_ml")
    return weigh_out(total_ml, *(resin.values.value(name) or 0 for name in names))


def life_at(resin: Resin, temperature_c: float) -> PotLifeBand | None:
    """The pot life at a temperature as a band; None where the data sheet does not say."""
    reference, at = resin.values.pot_life_min, resin.values.pot_life_reference_c
    if reference is None or at is None:
        return None
    try:
        return pot_life_band(reference, temperature_c, at)
    except Refusal:
        return None
