"""Jobs: one crack at one site, with the spacing chosen for it and the resin it gets."""

from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Connection, Row, insert, select

from app.workbook.tables import job

ORIENTATIONS = ("vertical", "horizontal", "overhead")
ACCESS = ("one", "both")
PORT_KINDS = ("surface", "drilled")


@dataclass(frozen=True, slots=True)
class Job:
    """A job. Sizes in mm; ``spacing_rule`` is a source id or "none": the chooser's own figure.

    ``crew_set``: the set of hands it needs, by its id in crew.yaml; "": the default one.
    """

    id: str
    site: str
    structure: str
    orientation: str
    access: str
    length_mm: float
    thickness_mm: float
    depth_mm: float
    width_mm: float
    spacing_mm: float
    spacing_rule: str
    spacing_chosen_by: str
    port_kind: str
    resin_id: str
    note: str
    is_invented: bool
    created_by: str
    created_at: datetime
    crew_set: str = ""

    @property
    def title(self) -> str:
        """Site and structure in one line."""
        return f"{self.site}: {self.structure}"

    @property
    def is_full_depth(self) -> bool:
        """Whether the crack goes through the member."""
        return self.depth_mm == self.thickness_mm


def keep_job(connection: Connection, new: Job) -> None:
    """Keep a new job."""
    values = asdict(new) | {"created_at": new.created_at.replace(tzinfo=None)}
    connection.execute(insert(job).values(values))


def job_by_id(connection: Connection, job_id: str) -> Job | None:
    """Return the job with this id, or None."""
    row = connection.execute(select(job).where(job.c.id == job_id)).first()
    return None if row is None else _job(row)


def all_jobs(connection: Connection) -> list[Job]:
    """Return every job, the newest first."""
    query = select(job).order_by(job.c.created_at.desc(), job.c.id.desc())
    return [_job(row) for row in connection.execute(query)]


def job_titles(connection: Connection) -> dict[str, str]:
    """Return every job's title by id."""
    rows = connection.execute(select(job.c.id, job.c.site, job.c.structure))
    return {row.id: f"{row.site}: {row.structure}" for row in rows}


def _job(row: Row[Any]) -> Job:
    return Job(**(dict(row._mapping) | {"is_invented": bool(row.is_invented)}))
