"""One cell of the board: the standing of a person in a qualification, without the reasons."""

from datetime import date
from typing import NamedTuple

from app.records.projection.pure.intervals import UpdateDue
from app.records.standing.definition import Standing, Status


class Cell(NamedTuple):
    """What a board shows of a standing; for the reasons ask judge().

    last_good_day, continuity_due_on: both still good; update: training that a major revision asks
    for, unless the qualification is revoked; decided_on: day of the suspension or revocation in
    force; is_due_soon: current, and something runs out within the policy's days of warning.
    """

    person: str
    qualification: str
    status: Status
    last_good_day: date | None = None
    continuity_due_on: date | None = None
    update: UpdateDue | None = None
    decided_on: date | None = None
    is_due_soon: bool = False

    @property
    def is_current(self) -> bool:
        """Whether the person may do this work on the day."""
        return self.status == "current"

    @property
    def runs_out_on(self) -> date | None:
        """The last day before the earliest of the clocks runs out; None: none is running."""
        update_on = self.update.on if self.update else None
        days = (self.last_good_day, self.continuity_due_on, update_on)
        return min((day for day in days if day is not None), default=None)


def cell_of(standing: Standing) -> Cell:
    """The cell of a standing worked out by the definition."""
    told = () if standing.status == "revoked" else (*standing.reasons, *standing.warnings)
    updates = [
        UpdateDue(day, str(reason.params["module"]), int(str(reason.params["revision"])))
        for reason in told
        if isinstance(day := reason.params.get("by"), date)
    ]
    against = [r.params["on"] for r in standing.reasons if r.code in ("revoked", "suspended")]
    decided_on = against[0] if against else None
    return Cell(
        person=standing.person,
        qualification=standing.qualification,
        status=standing.status,
        last_good_day=standing.last_good_day,
        continuity_due_on=standing.continuity_due_on,
        update=min(updates, key=lambda update: update.on, default=None),
        decided_on=decided_on if isinstance(decided_on, date) else None,
        is_due_soon=standing.is_due_soon,
    )
