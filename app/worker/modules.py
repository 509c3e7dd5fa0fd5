"""How far a person is in each module, from their records and the steps they have done."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Literal

from app.curriculum.model import Curriculum, Module
from app.curriculum.revisions import Revision, revision_in_force
from app.records.events import Quiz, Training
from app.records.standing.definition import Standing
from app.records.standing.settling import Settled, revision_needed
from app.workbook.progress import StepsDone

State = Literal["to-do", "begun", "quiz", "passed", "update"]


@dataclass(frozen=True, slots=True)
class ModuleState:
    """One module for one person on one day.

    ``revision`` is the one in force; ``trained`` the newest one of the person's training, 0 for
    none; ``changed_on`` the day of the major revision they have not trained at yet;
    ``is_quiz_stale`` says that the passed quiz no longer supports a new grant.
    """

    module: Module
    state: State
    revision: int
    trained: int
    steps_done: int
    steps_total: int
    passed_on: date | None
    changed_on: date | None
    is_quiz_stale: bool

    @property
    def may_take_quiz(self) -> bool:
        """The quiz opens once every step was done at a revision that is still good."""
        return self.state in ("quiz", "passed")


def in_force(settled: Settled, module: Module, on: date) -> int:
    """Return the revision in force: by the records, or by the lesson while there are none."""
    revisions = [
        Revision(event.revision, event.occurred_on, event.change)
        for event in settled.revisions.get(module.id, ())
    ]
    found = revision_in_force(revisions, on)
    return found.number if found else module.revision


def module_state(
    module: Module,
    settled: Settled,
    person_id: str,
    on: date,
    steps_done: StepsDone,
    stale_quizzes: Iterable[str] = (),
) -> ModuleState:
    """Return how far the person is in this module."""
    own = settled.about(person_id, on)
    trained = max(
        (e.revision for e in own if isinstance(e, Training) and e.module == module.id), default=0
    )
    needed = revision_needed(settled, module.id, on)
    passes = [e for e in own if isinstance(e, Quiz) and e.module == module.id and e.passed]
    passed_on = passes[-1].occurred_on if passes else None
    revision = in_force(settled, module, on)
    steps = module.lesson("en").steps
    known = steps_done.get((module.id, revision), frozenset())
    done = sum(step.id in known for step in steps)
    is_outdated = needed is not None and trained < needed.revision
    return ModuleState(
        module=module,
        state=_state(trained, is_outdated, done, passed_on),
        revision=revision,
        trained=trained,
        steps_done=done,
        steps_total=len(steps),
        passed_on=passed_on,
        changed_on=needed.occurred_on if needed and is_outdated and trained else None,
        is_quiz_stale=passed_on is not None and module.id in stale_quizzes,
    )


def _state(trained: int, is_outdated: bool, done: int, passed_on: date | None) -> State:
    if trained and not is_outdated:
        return "passed" if passed_on else "quiz"
    if trained:
        return "update"
    return "begun" if done else "to-do"


def module_states(
    curriculum: Curriculum,
    settled: Settled,
    person_id: str,
    on: date,
    steps_done: StepsDone,
    standings: Iterable[Standing],
) -> list[ModuleState]:
    """Return every module's state, in learning order."""
    stale = quizzes_missing(standings)
    return [
        module_state(module, settled, person_id, on, steps_done, stale)
        for module in curriculum.modules.values()
    ]


def quizzes_missing(standings: Iterable[Standing]) -> frozenset[str]:
    """Return the modules whose passed quiz some standing asks for."""
    gaps = (gap for standing in standings for gap in standing.missing)
    return frozenset(str(gap.params["module"]) for gap in gaps if gap.code == "quiz-missing")


@dataclass(frozen=True, slots=True)
class Next:
    """What to do next and why; ``qualification`` is the id of the one it counts for."""

    state: ModuleState
    why: Literal["update", "begun", "quiz", "first", "stale-quiz"]
    qualification: str


def next_module(states: Iterable[ModuleState], curriculum: Curriculum) -> Next | None:
    """Choose what comes next: an update, what was begun, an open quiz, then the learning order."""
    listed = list(states)
    for wanted, why in (("update", "update"), ("begun", "begun"), ("quiz", "quiz")):
        for state in listed:
            if state.state == wanted:
                return Next(state, why, _first_asking(curriculum, state.module.id))  # type: ignore[arg-type]
    to_do = {state.module.id: state for state in listed if state.state == "to-do"}
    for qualification in curriculum.qualifications.values():
        for module_id in qualification.modules:
            if module_id in to_do:
                return Next(to_do[module_id], "first", qualification.id)
    for state in listed:
        if state.is_quiz_stale:
            return Next(state, "stale-quiz", _first_asking(curriculum, state.module.id))
    return None


def _first_asking(curriculum: Curriculum, module_id: str) -> str:
    asking = [q.id for q in curriculum.qualifications.values() if module_id in q.modules]
    return asking[0] if asking else ""


def passed_counts(
    curriculum: Curriculum, states: Iterable[ModuleState]
) -> Mapping[str, tuple[int, int]]:
    """Return, by qualification, how many of its modules are passed, and how many it has."""
    passed = {state.module.id for state in states if state.state == "passed"}
    return {
        name: (len(passed & set(q.modules)), len(q.modules))
        for name, q in curriculum.qualifications.items()
    }
