"""Bring the database up to date."""

import click


@click.group()
def database() -> None:
    """Look after the database's tables."""


@database.command()
def upgrade() -> None:
    """Create the tables, or bring older ones up to date."""
    from app.cli.opening import opened_app
    from app.migrations.upgrading import upgrade_database

    with opened_app():
        upgrade_database()
    click.echo("The database is up to date.")
