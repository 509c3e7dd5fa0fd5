"""What a job card is worked out with and the job itself does not hold, as it was typed."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection, delete, insert, select

from app.workbook.tables import card_plan


@dataclass(frozen=True, slots=True)
class CardPlan:
    """The typed texts by field name; an empty field is left out."""

    typed: dict[str, str]
    saved_by: str
    saved_at: datetime


def keep_card_plan(
    connection: Connection, job_id: str, typed: Mapping[str, str], saved_by: str, saved_at: datetime
) -> None:
    """Keep a job's plan; the one before is replaced."""
    kept = {name: text for name, text in typed.items() if text}
    connection.execute(delete(card_plan).where(card_plan.c.job_id == job_id))
    connection.execute(
        insert(card_plan).values(
            job_id=job_id,
            typed=json.dumps(kept, ensure_ascii=False, sort_keys=True),
            saved_by=saved_by,
            saved_at=saved_at.replace(tzinfo=None),
        )
    )


def card_plan_of(connection: Connection, job_id: str) -> CardPlan | None:
    """Return a job's plan, or None while nobody has typed one."""
    row = connection.execute(select(card_plan).where(card_plan.c.job_id == job_id)).first()
    return None if row is None else CardPlan(json.loads(row.typed), row.saved_by, row.saved_at)
