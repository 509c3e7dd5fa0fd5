"""Which steps of a module a person has gone through, at which revision."""

from datetime import datetime

from sqlalchemy import Connection, select
from sqlalchemy.dialects.postgresql import insert as postgresql_insert
from sqlalchemy.dialects.sqlite import insert as sqlite_insert

from app.driver import fetched
from app.workbook.tables import step_done

_STEPS_DONE = "SELECT step_id FROM step_done WHERE person_id = ? AND module_id = ? AND revision = ?"

StepsDone = dict[tuple[str, int], frozenset[str]]


def mark_step_done(
    connection: Connection,
    person_id: str,
    module_id: str,
    revision: int,
    step_id: str,
    now: datetime,
) -> None:
    """Note that a step was done; a second time changes nothing, the first time stands."""
    insert = sqlite_insert if connection.dialect.name == "sqlite" else postgresql_insert
    row = {
        "person_id": person_id,
        "module_id": module_id,
        "revision": revision,
        "step_id": step_id,
        "done_at": now.replace(tzinfo=None),
    }
    connection.execute(insert(step_done).values(row).on_conflict_do_nothing())


def steps_done(
    connection: Connection, person_id: str, module_id: str, revision: int
) -> frozenset[str]:
    """Return the ids of the steps a person has done of one module at one revision."""
    rows = fetched(connection, _STEPS_DONE, (person_id, module_id, revision))
    return frozenset(step_id for (step_id,) in rows)


def all_steps_done(connection: Connection, person_id: str) -> StepsDone:
    """Return the steps a person has done, by module and revision."""
    query = select(step_done.c.module_id, step_done.c.revision, step_done.c.step_id).where(
        step_done.c.person_id == person_id
    )
    found: dict[tuple[str, int], set[str]] = {}
    for module_id, revision, step_id in connection.execute(query):
        found.setdefault((module_id, revision), set()).add(step_id)
    return {key: frozenset(steps) for key, steps in found.items()}
