"""Who acts, when and where, and how an act is refused. No Flask here."""

from dataclasses import dataclass
from datetime import date, datetime
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from app.accounts.sign_in import confirm_password
from app.records.deciding.acts import Act
from app.trade.errors import Refusal


@dataclass(frozen=True, slots=True)
class Doer:
    """The trainer acting."""

    person_id: str
    name: str
    now: datetime
    zone: ZoneInfo
    language: str = ""

    @property
    def today(self) -> date:
        """The civil day where the firm works."""
        return self.now.astimezone(self.zone).date()

    def act(self, record_id: str, occurred_on: date | None = None) -> Act:
        """The act that makes a record of this id; of today unless it happened on another day."""
        return Act(
            id=record_id,
            by=self.person_id,
            now=self.now,
            occurred_on=occurred_on or self.today,
            zone=self.zone.key,
        )


@dataclass(frozen=True, slots=True)
class Refused:
    """An act that was not done: the field beside which the reason is told."""

    field: str
    refusal: Refusal


def password_refused(connection: Connection, doer: Doer, password: str) -> Refused | None:
    """None when it is the doer's password. Returned, not raised, so that the failure is kept."""
    refusal = confirm_password(connection, doer.person_id, password, doer.now)
    return Refused("password", refusal) if refusal is not None else None
