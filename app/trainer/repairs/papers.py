"""All that is known about one supervised repair before it is signed. No Flask here."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from sqlalchemy import Connection

from app.curriculum.model import ChecklistItem, Curriculum, Module, Qualification
from app.curriculum.scoring import Score, Seen, score_observation
from app.trainer.repairs.judging import NotPossible, Open, Values, Verdict, job_values, judge
from app.workbook.jobs import Job, job_by_id
from app.workbook.observations import (
    ItemKey,
    SeenItem,
    Typed,
    Watching,
    measured_values,
    observation_by_id,
    seen_items,
)
from app.workbook.port_logs import PortRow, port_rows
from app.workbook.resins import Resin, resin_by_id

WAS_TRIED = ("done", "done-when-prompted", "not-done")


@dataclass(frozen=True, slots=True)
class OpenPoint:
    """What is still missing before signing. `what`: outcome, reason, log or judgement."""

    what: str
    module: Module | None = None
    item: ChecklistItem | None = None


@dataclass(frozen=True)
class Papers:
    """One supervised repair: the job, the checklists it goes through, and what was noted so far."""

    watching: Watching
    job: Job
    resin: Resin
    qualification: Qualification
    modules: tuple[Module, ...]
    seen: Mapping[ItemKey, SeenItem]
    measured: Mapping[ItemKey, Mapping[str, Typed]]
    ports: tuple[PortRow, ...]

    @cached_property
    def given(self) -> Values:
        """The job's and the product's values that limits are worked out from."""
        return job_values(self.job, self.resin)

    @property
    def items(self) -> Iterator[tuple[Module, ChecklistItem]]:
        """Every item of every checklist, in order."""
        return ((module, item) for module in self.modules for item in module.checklist)

    def module(self, module_id: str) -> Module | None:
        """The module of that id if its checklist belongs to this repair."""
        return next((module for module in self.modules if module.id == module_id), None)

    def noted(self, module: Module) -> int:
        """How many items of the module have an outcome."""
        return sum((module.id, item.id) in self.seen for item in module.checklist)

    def values(self, key: ItemKey) -> dict[str, Fraction]:
        """What was measured for an item, exact, in base units."""
        return {name: Fraction(one.value) for name, one in self.measured.get(key, {}).items()}

    def verdict(self, module: Module, item: ChecklistItem) -> Verdict | Open | None:
        """What was measured against its limits; None where there is nothing to judge."""
        key = (module.id, item.id)
        values = self.values(key)
        if not values or (key in self.seen and self.seen[key].outcome not in WAS_TRIED):
            return None
        try:
            return judge(item, values, self.given)
        except NotPossible as refused:
            # The numbers were judged when they were typed; since then the job's papers changed.
            return Open((refused.measure_id,))

    def rule_met(self, module: Module, item: ChecklistItem) -> bool | None:
        """Whether it was in tolerance; None where nothing was judged."""
        verdict = self.verdict(module, item)
        return verdict.is_within if isinstance(verdict, Verdict) else None

    def open_points(self) -> list[OpenPoint]:
        """All that is missing before it can be signed, in the order of the checklists."""
        found = [
            OpenPoint(what, module, item)
            for module, item in self.items
            if (what := self._open_in((module.id, item.id), item))
        ]
        return found if self.watching.overall else [*found, OpenPoint("judgement")]

    def _open_in(self, key: ItemKey, item: ChecklistItem) -> str:
        seen = self.seen.get(key)
        if seen is None:
            return "outcome"
        if item.critical and seen.outcome == "does-not-apply" and not seen.reason.strip():
            return "reason"
        is_empty_log = item.log == "ports" and not self.ports
        return "log" if is_empty_log and seen.outcome == "done" else ""

    def score(self) -> Score:
        """Pass or not yet, with reasons; raises a NotScorable while something is missing."""
        items, seen = [], {}
        for module, item in self.items:
            name = f"{module.id}/{item.id}"  # two modules may have an item of the same id
            items.append(item.model_copy(update={"id": name}))
            one = self.seen.get((module.id, item.id))
            if one is not None:
                seen[name] = Seen(one.outcome, one.reason, self.rule_met(module, item))
        cut = self.qualification.practical_pass_share
        return score_observation(items, seen, self.watching.overall, cut)


def papers_of(
    connection: Connection, curriculum: Curriculum, observation_id: str, trainer_id: str
) -> Papers | None:
    """Return a trainer's own open papers; None for anybody else's, and for what is closed."""
    watching = observation_by_id(connection, observation_id)
    if watching is None or watching.trainer_id != trainer_id or not watching.is_open:
        return None
    qualification = curriculum.qualifications.get(watching.qualification_id)
    job = job_by_id(connection, watching.job_id)
    resin = resin_by_id(connection, job.resin_id) if job else None
    if qualification is None or job is None or resin is None:
        return None
    return Papers(
        watching=watching,
        job=job,
        resin=resin,
        qualification=qualification,
        modules=tuple(curriculum.module(name) for name in qualification.checklist_modules()),
        seen=seen_items(connection, observation_id),
        measured=measured_values(connection, observation_id),
        ports=tuple(port_rows(connection, observation_id)),
    )
