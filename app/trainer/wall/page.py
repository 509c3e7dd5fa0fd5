"""What the page at the wall carries, so that a phone can work without signal. No Flask."""

from dataclasses import dataclass
from typing import Any

from app.curriculum.model import ChecklistItem, Module
from app.trainer.numbers import decimal_text
from app.trainer.repairs.batches import batches
from app.trainer.repairs.papers import Papers
from app.trainer.repairs.port_plan import planned_order
from app.trainer.wall.body import FORMAT, TYP
from app.trainer.wall.rules import bounds_of, rule_data


@dataclass(frozen=True, slots=True)
class Shown:
    """Words of the page's language that go with the papers."""

    language: str
    printed_name: str
    person: str
    qualification: str
    meaning: str


def wall_data(papers: Papers, shown: Shown) -> dict[str, Any]:
    """Everything as plain data: whom and what it is about, the rules, what was noted so far."""
    watching, cut = papers.watching, papers.qualification.practical_pass_share
    return {
        "format": FORMAT,
        "typ": TYP,
        "id": watching.id,
        "person": watching.person_id,
        "job": watching.job_id,
        "qualification": watching.qualification_id,
        "trainer": watching.trainer_id,
        "occurred_on": watching.occurred_on.isoformat(),
        "language": shown.language,
        "printed_name": shown.printed_name,
        "meaning": shown.meaning,
        "modules": [{"module": m.id, "revision": m.revision} for m in papers.modules],
        "items": [_item(module, item, shown.language) for module, item in papers.items],
        "bounds": bounds_of(papers.modules),
        "cut": [cut.numerator, cut.denominator],
        "given": _given(papers),
        "orders": _orders(papers),
        "noted": _noted(papers),
        "about": [shown.person, shown.qualification, papers.job.title],
    }


def _item(module: Module, item: ChecklistItem, language: str) -> dict[str, Any]:
    return {
        "module": module.id,
        "step": item.id,
        "text": item.text.in_language(language),
        "critical": item.critical,
        "log": item.log == "ports",
        "rule": rule_data(item),
        "measures": [
            {
                "id": one.id,
                "quantity": one.quantity,
                "unit": one.unit,
                "label": one.label.in_language(language),
            }
            for one in item.measures
        ],
    }


def _given(papers: Papers) -> dict[str, str]:
    return {
        name: value if isinstance(value, str) else decimal_text(value)
        for name, value in papers.given.items()
        if value is not None
    }


def _orders(papers: Papers) -> list[list[int]]:
    """The planned order from the usual end, and the one for a crew that began at the other."""
    usual = planned_order(papers.job)
    return [list(usual), list(planned_order(papers.job, usual[-1]))]


def _noted(papers: Papers) -> dict[str, Any]:
    """What was noted on the ordinary pages before: the phone goes on from there."""
    return {
        "seen": {"/".join(k): [one.outcome, one.reason] for k, one in papers.seen.items()},
        "measured": {
            "/".join(key): {name: one.typed for name, one in kept.items()}
            for key, kept in papers.measured.items()
            if papers.module(key[0])
        },
        "ports": [
            {
                "row": line.row,
                "port": line.port,
                "opened_at": line.opened_at,
                "next_showed_at": line.next_showed_at,
                "typed": line.pressure_typed,
                "note": line.note,
            }
            for line in papers.ports
        ],
        "batches": [
            {"number": b.number, "mixed_at": b.mixed_at, "typed": f"{b.temperature_c:g} C"}
            for b in batches(papers)
        ],
        "judgement": papers.watching.overall,
        "remarks": papers.watching.remarks,
    }
