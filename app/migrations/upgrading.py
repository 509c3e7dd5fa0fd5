"""Bring the open database up to the newest migration."""

from pathlib import Path

from flask import current_app
from flask_migrate import Migrate, upgrade

from app.database import db


def upgrade_database() -> None:
    """Run every migration the database has not seen; call inside an app context."""
    Migrate(current_app, db, directory=str(Path(__file__).parent))
    upgrade()
