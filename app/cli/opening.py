"""How a command opens the app or its records: the server's own settings, content and database."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from flask import Flask
    from sqlalchemy import Connection


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
        yield settings.instance, connection
