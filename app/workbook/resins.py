"""Resins as their product data sheets give them. A value the sheet leaves out stays None."""

from dataclasses import dataclass, fields
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, insert, select, update

from app.trade.errors import Refusal
from app.workbook.tables import resin


class ResinNameTaken(Refusal):
    """Another resin has the name already."""

    template = "There is a resin called {name} already. Add the date of the data sheet to the name."


class AlreadyGiven(Refusal):
    """A value that jobs were worked out with is not changed under them."""

    template = "This resin has a value for {name} already. Enter a new sheet as a new resin."


@dataclass(frozen=True, slots=True)
class Sheet:
    """The values of one product data sheet; None: the sheet does not say, or nobody looked."""

    parts_a: float | None = None
    parts_b: float | None = None
    ratio_tolerance: float | None = None
    density_a_g_per_ml: float | None = None
    density_b_g_per_ml: float | None = None
    viscosity_pa_s: float | None = None
    pot_life_min: float | None = None
    pot_life_reference_c: float | None = None
    gel_time_min: float | None = None
    min_temperature_c: float | None = None
    max_temperature_c: float | None = None
    max_pressure_mpa: float | None = None

    def value(self, name: str) -> float | None:
        """The value called ``name``."""
        found = getattr(self, name)
        return None if found is None else float(found)

    def missing(self) -> tuple[str, ...]:
        """The names of what the sheet does not say, in its own order."""
        return tuple(name for name in VALUES if getattr(self, name) is None)


VALUES = tuple(field.name for field in fields(Sheet))


@dataclass(frozen=True, slots=True)
class Resin:
    """A resin by its name, the sheet it was taken from (title and date) and its values."""

    id: str
    name: str
    sheet: str
    values: Sheet
    is_invented: bool
    created_by: str
    created_at: datetime


def keep_resin(connection: Connection, new: Resin) -> None:
    """Keep a new resin; raises ResinNameTaken."""
    if connection.scalar(select(resin.c.id).where(resin.c.name == new.name)) is not None:
        raise ResinNameTaken(name=new.name)
    connection.execute(
        insert(resin).values(
            id=new.id,
            name=new.name,
            sheet=new.sheet,
            is_invented=new.is_invented,
            created_by=new.created_by,
            created_at=new.created_at.replace(tzinfo=None),
            **{name: new.values.value(name) for name in VALUES},
        )
    )


def fill_in(connection: Connection, known: Resin, given: dict[str, float]) -> None:
    """Give values to lines that were open; raises AlreadyGiven for one that was not."""
    for name in given:
        if known.values.value(name) is not None:
            raise AlreadyGiven(name=name)
    if given:
        connection.execute(update(resin).where(resin.c.id == known.id).values(given))


def resin_by_id(connection: Connection, resin_id: str) -> Resin | None:
    """Return the resin with this id, or None."""
    row = connection.execute(select(resin).where(resin.c.id == resin_id)).first()
    return None if row is None else _resin(row)


def all_resins(connection: Connection) -> list[Resin]:
    """Return every resin, by name."""
    return [_resin(row) for row in connection.execute(select(resin).order_by(resin.c.name))]


def _resin(row: Row[Any]) -> Resin:
    return Resin(
        id=row.id,
        name=row.name,
        sheet=row.sheet,
        values=Sheet(**{name: getattr(row, name) for name in VALUES}),
        is_invented=bool(row.is_invented),
        created_by=row.created_by,
        created_at=row.created_at,
    )
