"""Photos that phones sent, by observation. The files stand in a folder beside the database."""

from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from sqlalchemy import Connection, insert, select

from app.workbook.sign_off_tables import photo


@dataclass(frozen=True, slots=True)
class Photo:
    """One photo. ``sha256`` is of the bytes as sent; the file is a copy without position data."""

    id: str
    observation_id: str
    sha256: str
    module_id: str
    item_id: str
    width: int
    height: int
    arrived_at: datetime


def keep_photo(connection: Connection, new: Photo) -> None:
    """Keep a photo's row; call it in the transaction that wrote its file."""
    values = {name: getattr(new, name) for name in Photo.__dataclass_fields__}
    connection.execute(insert(photo).values(values))


def photo_by_id(connection: Connection, photo_id: str) -> Photo | None:
    """Return the photo with this id, or None."""
    row = connection.execute(select(photo).where(photo.c.id == photo_id)).first()
    return None if row is None else Photo(**row._mapping)


def photos_of(connection: Connection, observation_id: str) -> list[Photo]:
    """Return the photos of an observation in order of arrival."""
    query = select(photo).where(photo.c.observation_id == observation_id)
    rows = connection.execute(query.order_by(photo.c.arrived_at, photo.c.id))
    return [Photo(**row._mapping) for row in rows]


def photo_file(instance: Path, photo_id: str) -> Path:
    """Return where a photo's copy stands; the name is ours, never the phone's."""
    return instance / "photos" / f"{photo_id}.jpg"
