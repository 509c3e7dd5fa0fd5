"""What the learning pages need, gathered in one read. No Flask here."""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection

from app.curriculum.model import Curriculum, Lesson, Module, Step
from app.records.ledger.door import history_of
from app.records.standing.definition import Standing
from app.records.standing.settling import Settled, settle
from app.workbook.attempts import Attempt, attempts_at
from app.workbook.practice_runs import done_count
from app.workbook.progress import all_steps_done, steps_done
from app.worker.confirming import waiting_in
from app.worker.modules import (
    ModuleState,
    Next,
    in_force,
    module_state,
    module_states,
    next_module,
    passed_counts,
)
from app.worker.standing_pages import standings_of


@dataclass(frozen=True, slots=True)
class LearnPage:
    """Every module's state, what comes next, progress to each qualification, practice cracks,
    and how many repairs wait for the person's own word.
    """

    states: list[ModuleState]
    next: Next | None
    standings: list[Standing]
    passed: dict[str, tuple[int, int]]
    practised: int
    to_confirm: int


def learn_page(
    connection: Connection, curriculum: Curriculum, person_id: str, on: date
) -> LearnPage:
    """Gather the first page of a worker's day."""
    settled = settle(history_of(connection, person_id))
    standings = standings_of(curriculum, settled, person_id, on)
    done = all_steps_done(connection, person_id)
    states = module_states(curriculum, settled, person_id, on, done, standings)
    counts = dict(passed_counts(curriculum, states))
    practised = done_count(connection, person_id)
    to_confirm = len(waiting_in(settled, curriculum, person_id))
    following = next_module(states, curriculum)
    return LearnPage(states, following, standings, counts, practised, to_confirm)


@dataclass(frozen=True, slots=True)
class ModulePage:
    """One module: its lesson, which steps are done, the open attempt and the finished ones."""

    module: Module
    lesson: Lesson
    state: ModuleState
    done: frozenset[str]
    open_attempt: Attempt | None
    finished: list[Attempt]

    @property
    def first_open(self) -> int:
        """The number of the first step not done, or 1 when all are."""
        left = (step.number for step in self.lesson.steps if step.id not in self.done)
        return next(left, 1)


def module_page(
    connection: Connection, module: Module, person_id: str, on: date, language: str
) -> ModulePage:
    """Gather one module's page."""
    settled = settle(history_of(connection, person_id))
    state = module_state(module, settled, person_id, on, all_steps_done(connection, person_id))
    attempts = attempts_at(connection, person_id, module.id)
    opened = [a for a in attempts if a.finished_at is None and a.revision == state.revision]
    return ModulePage(
        module=module,
        lesson=module.lesson(language),
        state=state,
        done=steps_done(connection, person_id, module.id, state.revision),
        open_attempt=opened[-1] if opened else None,
        finished=[attempt for attempt in attempts if attempt.finished_at is not None],
    )


@dataclass(frozen=True, slots=True)
class StepPage:
    """One card of a lesson, the ids of the module's steps done, and the revision it is of."""

    lesson: Lesson
    step: Step
    known: frozenset[str]
    revision: int

    @property
    def total(self) -> int:
        """How many steps the lesson has."""
        return len(self.lesson.steps)

    @property
    def done(self) -> int:
        """How many of them are done."""
        return sum(one.id in self.known for one in self.lesson.steps)


def step_page(
    connection: Connection,
    settled: Settled,
    module: Module,
    number: int,
    person_id: str,
    on: date,
    language: str,
) -> StepPage | None:
    """Gather one step's card; None when the lesson has no step of that number.

    settled: the records that bear on everybody, for the revision in force.
    """
    lesson = module.lesson(language)
    if not 1 <= number <= len(lesson.steps):
        return None
    revision = in_force(settled, module, on)
    known = steps_done(connection, person_id, module.id, revision)
    return StepPage(lesson, lesson.steps[number - 1], known, revision)
