"""How a command opens the app or its records: the server's own settings, content and database."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from flask import Flask
    from sqlalchemy import Connection


class NoTables(click.ClickException):
    """A database without the tables."""

    def __init__(self) -> None:
        super().__init__(
            "This database has no tables for records yet. First run: lowport database upgrade"
        )


@contextmanager
def opened_app() -> Iterator[Flask]:
    """Yield the app with its context pushed."""
    from app.factory import create_app

    app = create_app()
    with app.app_context():
        yield app


@contextmanager
def opened_records() -> Iterator[tuple[Path, Connection]]:
    """Yield the instance folder and a reading connection; quicker, since no content is read."""
    from app.database import engine_at, reading_from
    from app.settings import settings_from

    settings = settings_from()
    with reading_from(engine_at(settings.database_url)) as connection:
        ask_for_tables(connection)
        yield settings.instance, connection


def ask_for_tables(connection: Connection) -> None:
    """Raise NoTables where the records, or the projection behind the board, have no tables."""
    from sqlalchemy import inspect

    from app.records.ledger.tables import record
    from app.records.projection.stored.interval_tables import TABLES

    if not {record.name, *(table.name for table in TABLES)} <= set(
        inspect(connection).get_table_names()
    ):
        raise NoTables
