"""Bring the open database up to the newest migration."""

from flask_migrate import upgrade


def upgrade_database() -> None:
    """Run every migration the database has not seen; call inside an app context."""
    upgrade()
