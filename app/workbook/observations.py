"""Supervised repairs while they are watched: what was seen, measured and logged, until signed.

What a trainer times with a batch stands beside the measured values, under the module BATCH.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import Connection, Row, delete, insert, select, update

from app.workbook.tables import observation, observed_item, observed_measure

BATCH = "batch"

ItemKey = tuple[str, str]  # (module id, item id)


@dataclass(frozen=True, slots=True)
class Watching:
    """One supervised repair as the trainer keeps it. ``id`` becomes the record's."""

    id: str
    job_id: str
    person_id: str
    trainer_id: str
    qualification_id: str
    occurred_on: date
    overall: str
    remarks: str
    started_at: datetime
    signed_at: datetime | None = None
    dropped_at: datetime | None = None

    @property
    def is_open(self) -> bool:
        """Whether it may still be changed."""
        return self.signed_at is None and self.dropped_at is None


@dataclass(frozen=True, slots=True)
class SeenItem:
    """How one item of a checklist went."""

    outcome: str
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Typed:
    """A measured value: as typed, and as decimal text in the base unit of its quantity."""

    typed: str
    value: str


def keep_observation(connection: Connection, new: Watching) -> None:
    """Keep a new supervised repair."""
    connection.execute(
        insert(observation).values(
            id=new.id,
            job_id=new.job_id,
            person_id=new.person_id,
            trainer_id=new.trainer_id,
            qualification_id=new.qualification_id,
            occurred_on=new.occurred_on,
            overall=new.overall,
            remarks=new.remarks,
            started_at=new.started_at.replace(tzinfo=None),
        )
    )


def observation_by_id(connection: Connection, observation_id: str) -> Watching | None:
    """Return the supervised repair with this id, or None."""
    row = connection.execute(select(observation).where(observation.c.id == observation_id)).first()
    return None if row is None else _watching(row)


def open_observations(connection: Connection, trainer_id: str) -> list[Watching]:
    """Return what this trainer has begun and neither signed nor dropped, the newest first."""
    query = select(observation).where(
        observation.c.trainer_id == trainer_id,
        observation.c.signed_at.is_(None),
        observation.c.dropped_at.is_(None),
    )
    return [_watching(row) for row in connection.execute(query.order_by(observation.c.id.desc()))]


def keep_outcome(connection: Connection, observation_id: str, key: ItemKey, seen: SeenItem) -> None:
    """Keep how an item went; what was kept before is replaced."""
    where = {"observation_id": observation_id, "module_id": key[0], "item_id": key[1]}
    connection.execute(delete(observed_item).filter_by(**where))
    connection.execute(
        insert(observed_item).values(**where, outcome=seen.outcome, reason=seen.reason)
    )


def keep_measured(
    connection: Connection, observation_id: str, key: ItemKey, measured: Mapping[str, Typed]
) -> None:
    """Keep all that was measured for an item or a batch; what was kept before is replaced."""
    where = {"observation_id": observation_id, "module_id": key[0], "item_id": key[1]}
    connection.execute(delete(observed_measure).filter_by(**where))
    for name, one in measured.items():
        connection.execute(
            insert(observed_measure).values(
                **where, measure_id=name, typed=one.typed, value=one.value
            )
        )


def seen_items(connection: Connection, observation_id: str) -> dict[ItemKey, SeenItem]:
    """Return how each item went that has been noted so far."""
    query = select(observed_item).where(observed_item.c.observation_id == observation_id)
    return {
        (row.module_id, row.item_id): SeenItem(row.outcome, row.reason)
        for row in connection.execute(query)
    }


def measured_values(connection: Connection, observation_id: str) -> dict[ItemKey, dict[str, Typed]]:
    """Return what was measured for each item, batches included, by (module, item) and measure."""
    query = select(observed_measure).where(observed_measure.c.observation_id == observation_id)
    found: dict[ItemKey, dict[str, Typed]] = {}
    for row in connection.execute(query):
        of_item = found.setdefault((row.module_id, row.item_id), {})
        of_item[row.measure_id] = Typed(row.typed, row.value)
    return found


def set_judgement(connection: Connection, observation_id: str, overall: str, remarks: str) -> None:
    """Keep the overall judgement and the remarks."""
    _set(connection, observation_id, overall=overall, remarks=remarks)


def mark_signed(connection: Connection, observation_id: str, now: datetime) -> None:
    """Close the papers: from here on the record speaks."""
    _set(connection, observation_id, signed_at=now.replace(tzinfo=None))


def drop_observation(connection: Connection, observation_id: str, now: datetime) -> None:
    """Give up a supervised repair that was not signed."""
    _set(connection, observation_id, dropped_at=now.replace(tzinfo=None))


def _set(connection: Connection, observation_id: str, **values: Any) -> None:
    where = observation.c.id == observation_id
    connection.execute(update(observation).where(where).values(values))


def _watching(row: Row[Any]) -> Watching:
    return Watching(**row._mapping)
