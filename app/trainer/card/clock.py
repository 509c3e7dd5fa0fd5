"""Time on the job card: the pot life as a band, the batches and when each must be out. No Flask."""

from dataclasses import dataclass

from app.trade.batch_clock import batch_clock, batch_limit, batch_size_warning
from app.trade.errors import Refusal
from app.trade.mixing import hand_batches
from app.trade.pot_life import PotLifeBand, gel_time_gate, pot_life_band
from app.trainer.card.line import Line, absent, sources_of, worked
from app.trainer.card.plan import Plan
from app.workbook.resins import Sheet

MOST_BATCHES = 8  # on one card; the last line says how many more
DAY = 1440


@dataclass(frozen=True, slots=True)
class BatchLine:
    """One batch: clock times in minutes after midnight, None while no start is typed."""

    number: int
    ml: float
    mixed_min: float | None
    out_by_min: float | None


@dataclass(frozen=True, slots=True)
class Clock:
    """The pot life, and the batches of hand-mixed work. `more`: batches beyond those listed."""

    lines: list[Line]
    band: PotLifeBand | None
    batches: tuple[BatchLine, ...] = ()
    more: int = 0


def clock_of(total_ml: float, plan: Plan, sheet: Sheet) -> Clock:
    """The clock of a job. Times are planned by the short end of the band."""
    life = worked(
        *("life", "", ("pot_life_band",)),
        {
            "pot_life_min": sheet.pot_life_min,
            "resin_temperature_c": plan.resin_temperature_c,
            "pot_life_reference_c": sheet.pot_life_reference_c,
        },
        pot_life_band,
    )
    band: PotLifeBand | None = life.value
    ends = {"life_low": band and band.low_min, "life_high": band and band.high_min}
    lines = [
        Line(name, minutes, "time", life.sources, life.missing, life.refused)
        for name, minutes in ends.items()
    ]
    lines.append(_gate(sheet))
    if plan.mixing == "hand":
        return _batched(total_ml, plan, lines, band)
    return Clock([*lines, _standing(plan, lines[0])], band)


def _gate(sheet: Sheet) -> Line:
    """The hour that low-pressure work asks for, as a word."""
    return worked(
        *("gel_gate", "", ("gel_time_gate",)),
        {"gel_time_min": sheet.gel_time_min},
        lambda minutes: gel_time_gate(minutes).verdict,
    )


def _standing(plan: Plan, short: Line) -> Line:
    """How long resin may stand in the mixer of a pump; open while nobody says how it is mixed."""
    sources = sources_of("batch_clock")
    if not plan.mixing:
        return Line("batches", None, "", sources, ("mixing",))
    return Line("mixer_stands", short.value, "time", sources, short.missing, short.refused)


def _batched(total_ml: float, plan: Plan, lines: list[Line], band: PotLifeBand | None) -> Clock:
    sources = sources_of("batch_limit", "hand_batches")
    rate = plan.placing_ml_per_min
    if band is None or rate is None:
        missing = (*lines[0].missing, *absent({"placing_ml_per_min": rate}))
        return Clock([*lines, Line("batch_limit", None, "volume", sources, missing)], band)
    try:
        limit = batch_limit(band.low_min, rate)
        shared = hand_batches(total_ml, limit)
    except Refusal as refusal:
        return Clock([*lines, Line("batch_limit", None, "volume", sources, refused=refusal)], band)
    size = worked(
        *("batch_size", "", ("batch_size_warning",)),
        {"tested_ml": plan.tested_ml},
        lambda tested: batch_size_warning(shared.each_ml, tested).verdict,
    )
    listed = min(shared.count, MOST_BATCHES)
    return Clock(
        [
            *(*lines, Line("batch_limit", limit, "volume", sources)),
            Line("batch_count", shared.count, "count", sources),
            *(Line("batch_each", shared.each_ml, "volume", sources), size),
        ],
        band,
        tuple(_batch(n, shared.each_ml, rate, plan, band) for n in range(1, listed + 1)),
        shared.count - listed,
    )


def _batch(number: int, ml: float, rate: float, plan: Plan, band: PotLifeBand) -> BatchLine:
    """Each batch is mixed when the one before it is placed."""
    if plan.start_min is None:
        return BatchLine(number, ml, None, None)
    days, mixed = divmod(plan.start_min + (number - 1) * ml / rate, DAY)
    out_by = batch_clock(mixed, band.low_min).out_by_min
    return BatchLine(number, ml, days * DAY + mixed, days * DAY + out_by)
