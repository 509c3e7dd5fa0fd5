"""Batches of mixed resin while a repair is watched: when each must be out. No Flask here."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from app.trade.batch_clock import batch_clock
from app.trade.pot_life import PotLifeBand
from app.trainer.jobs.pages import life_at
from app.trainer.repairs.papers import Papers
from app.workbook.observations import BATCH, Typed
from app.workbook.resins import Resin


@dataclass(frozen=True, slots=True)
class Batch:
    """One batch; `out_by` by the short end of the pot-life band, "" where the band is not known."""

    number: int
    mixed_at: str
    temperature_c: float
    life: PotLifeBand | None
    out_by: str
    is_next_day: bool


def batches(papers: Papers) -> list[Batch]:
    """Every batch that was timed, in order."""
    own = {int(key[1]): kept for key, kept in papers.measured.items() if key[0] == BATCH}
    return [_batch(papers.resin, number, own[number]) for number in sorted(own)]


def next_number(papers: Papers) -> int:
    """The number the next batch gets."""
    return max((batch.number for batch in batches(papers)), default=0) + 1


def _batch(resin: Resin, number: int, kept: Mapping[str, Typed]) -> Batch:
    mixed = int(Fraction(kept["mixed_at"].value))
    temperature = float(Fraction(kept["resin_temperature"].value))
    life = life_at(resin, temperature)
    out_by = batch_clock(mixed, life.low_min).out_by_min if life else None
    return Batch(
        number=number,
        mixed_at=kept["mixed_at"].typed,
        temperature_c=temperature,
        life=life,
        out_by="" if out_by is None else clock_text(out_by),
        is_next_day=out_by is not None and out_by >= 1440,
    )


def clock_text(minutes: float) -> str:
    """Minutes after midnight as a clock time, cut to the minute before: "14:05"."""
    hours, left = divmod(int(minutes) % 1440, 60)
    return f"{hours:02d}:{left:02d}"
