"""The port log of a supervised repair: which port was opened when, and when the next one showed."""

from dataclasses import dataclass

from sqlalchemy import Connection, delete, func, insert, select

from app.workbook.tables import port_log


@dataclass(frozen=True, slots=True)
class PortRow:
    """One line of the log. Times are clock times at the site, "14:05"; "" where not noted."""

    row: int
    port: int
    opened_at: str
    next_showed_at: str = ""
    pressure_typed: str = ""
    pressure_mpa: float | None = None
    note: str = ""


def next_row(connection: Connection, observation_id: str) -> int:
    """Return the number the next line gets; numbers of dropped lines at the end come again."""
    where = port_log.c.observation_id == observation_id
    return 1 + int(connection.scalar(select(func.max(port_log.c.row)).where(where)) or 0)


def keep_port_row(connection: Connection, observation_id: str, line: PortRow) -> None:
    """Keep a line; one of the same number is replaced."""
    drop_port_row(connection, observation_id, line.row)
    connection.execute(
        insert(port_log).values(
            observation_id=observation_id,
            row=line.row,
            port=line.port,
            opened_at=line.opened_at,
            next_showed_at=line.next_showed_at,
            pressure_typed=line.pressure_typed,
            pressure_mpa=line.pressure_mpa,
            note=line.note,
        )
    )


def drop_port_row(connection: Connection, observation_id: str, row: int) -> None:
    """Strike a line out; a line that is not there stays away."""
    connection.execute(delete(port_log).filter_by(observation_id=observation_id, row=row))


def port_rows(connection: Connection, observation_id: str) -> list[PortRow]:
    """Return the log in the order it was written."""
    columns = [port_log.c[name] for name in PortRow.__dataclass_fields__]
    query = select(*columns).where(port_log.c.observation_id == observation_id)
    return [PortRow(*row) for row in connection.execute(query.order_by(port_log.c.row))]
