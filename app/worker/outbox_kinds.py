"""What a worker's phone sends once it has signal: steps done, answers given."""

from datetime import UTC
from typing import Any

from sqlalchemy import Connection

from app.curriculum.model import Module
from app.web.now import zone
from app.web.outbox_items import malformed
from app.web.outbox_kinds import Arrival, Kind
from app.worker.actions import Doer, finish_step
from app.worker.blueprint import curriculum


def take_step_done(connection: Connection, arrival: Arrival) -> dict[str, Any]:
    """Note a step as done; ``payload``: module, revision (as it was on the page), step."""
    item = arrival.item
    module = _module(arrival)
    read, step_id = item.value("revision", int), item.value("step", str)
    known = {step.id for step in module.lesson("en").steps}
    if read < 1 or (step_id not in known and read >= module.revision):
        raise malformed("payload.step", step_id)
    left = finish_step(connection, module, step_id[:60], doer_of(arrival), read)
    return {"left": list(left)}


def doer_of(arrival: Arrival) -> Doer:
    """Who did it and when, as far as the phone's clock can be believed."""
    return Doer(
        arrival.person.id,
        arrival.arrived_at,
        zone(),
        arrival.person.language,
        arrival.person.units,
        done_at=arrival.time.likely_at.astimezone(UTC),
        carried_by=arrival.carried_by.id if arrival.carried_by else "",
    )


def _module(arrival: Arrival) -> Module:
    name = arrival.item.value("module", str)
    found = curriculum().modules.get(name)
    if found is None:
        raise malformed("payload.module", name)
    return found


KINDS = (Kind("step-done", take_step_done, role="worker"),)
