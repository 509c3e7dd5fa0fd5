"""The papers of a supervised repair as the observation that is signed. No floats: decimal text."""

from collections.abc import Iterator
from fractions import Fraction
from typing import cast

from app.curriculum.model import ChecklistItem, Module
from app.curriculum.scoring import Judgement, Outcome
from app.records.observation import Measured, Observation, PortEntry, Signature, StepOutcome
from app.trade.units import BASE_UNITS
from app.trainer.numbers import decimal_text
from app.trainer.repairs.judging import Verdict
from app.trainer.repairs.papers import Papers
from app.trainer.repairs.port_plan import judge_log
from app.workbook.observations import BATCH

# Units as they stand at the end of a name: resin_density_a_g_per_ml.
_UNITS = ("g_per_ml", "pa_s", "mm", "min", "mpa", "c")


def observation_of(papers: Papers, signature: Signature) -> Observation:
    """Everything that was seen, measured and logged, and what the limits were worked out from."""
    return Observation(
        items=tuple(_outcome(papers, module, item) for module, item in papers.items),
        judgement=cast(Judgement, papers.watching.overall),
        signature=signature,
        measured=(*_measured(papers), *_batches(papers)),
        given=tuple(
            Measured(name=name, value=decimal_text(value), unit=unit_at_end(name))
            for name, value in papers.given.items()
            if value is not None and not isinstance(value, str)
        ),
        ports=_ports(papers),
        comment=papers.watching.remarks,
    )


def unit_at_end(name: str) -> str:
    """The unit in which a named value is: mm of job_length_mm; "" for plain numbers."""
    return next((unit for unit in _UNITS if name.endswith("_" + unit)), "")


def _outcome(papers: Papers, module: Module, item: ChecklistItem) -> StepOutcome:
    seen = papers.seen[module.id, item.id]
    return StepOutcome(
        step=item.id,
        module=module.id,
        outcome=cast(Outcome, seen.outcome),
        critical=item.critical,
        reason=seen.reason,
        rule_met=papers.rule_met(module, item),
    )


def _measured(papers: Papers) -> Iterator[Measured]:
    for module, item in papers.items:
        values = papers.measured.get((module.id, item.id), {})
        verdict = papers.verdict(module, item)
        for measure in item.measures:
            if measure.id not in values:
                continue
            found = verdict if isinstance(verdict, Verdict) else None
            judged = found if found and found.measure_id == measure.id else None
            yield Measured(
                name=measure.id,
                value=values[measure.id].value,
                unit=BASE_UNITS[measure.quantity],
                module=module.id,
                step=item.id,
                low=_text(judged.low) if judged else None,
                high=_text(judged.high) if judged else None,
                is_within=judged.is_within if judged else None,
            )


def _batches(papers: Papers) -> Iterator[Measured]:
    """When each batch was mixed, in minutes after midnight, and how warm it was."""
    for (module_id, number), values in sorted(papers.measured.items()):
        if module_id != BATCH:
            continue
        for name, one in sorted(values.items()):
            unit = "c" if name == "resin_temperature" else "min"
            yield Measured(name=name, value=one.value, unit=unit, step=f"batch-{number}")


def _ports(papers: Papers) -> tuple[PortEntry, ...]:
    return tuple(
        PortEntry(
            port=judged.line.port,
            next_port=judged.next_port if judged.line.next_showed_at else None,
            shown_at=judged.line.next_showed_at,
            pressure_mpa=_text(judged.line.pressure_mpa),
            opened_at=judged.line.opened_at,
            note=judged.line.note,
        )
        for judged in judge_log(papers.job, papers.resin, papers.ports)
    )


def _text(value: Fraction | float | None) -> str | None:
    return None if value is None else decimal_text(value)
