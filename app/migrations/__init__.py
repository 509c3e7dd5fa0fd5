"""Numbered migrations (Alembic through Flask-Migrate)."""
