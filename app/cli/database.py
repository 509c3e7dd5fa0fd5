"""Bring the database up to date, and let a PostgreSQL role work with it."""

from typing import Any

import click


@click.group()
def database() -> None:
    """Look after the database's tables."""


@database.command()
def upgrade() -> None:
    """Create the tables, or bring older ones up to date; rebuild the board if it has to be."""
    from app.cli.opening import opened_app
    from app.cli.rebuilding import needs_rebuild, rebuild_for
    from app.migrations.upgrading import upgrade_database

    with opened_app() as app:
        upgrade_database()
        click.echo("The database is up to date.")
        if needs_rebuild(app):
            click.echo(rebuild_for(app))


@database.command()
def compact() -> None:
    """Write the database's files anew without what was deleted; after a name was erased.

    Nobody can write meanwhile, and SQLite needs as much room again. On PostgreSQL run it as the
    owner.
    """
    from app.cli.opening import opened_app
    from app.database import db, empty_write_ahead_log

    with opened_app():
        raw = db.engine.raw_connection()
        try:
            _compact(raw.driver_connection, db.engine.dialect.name)
        finally:
            raw.close()
        empty_write_ahead_log(db.engine)
    click.echo("The database's files hold nothing that was deleted. Backups still may.")


def _compact(connection: Any, dialect: str) -> None:
    if dialect == "sqlite":
        connection.execute("VACUUM")
        return
    connection.rollback()
    connection.autocommit = True
    connection.execute("VACUUM (FULL)")
    connection.autocommit = False


@database.command()
@click.argument("role")
def admit(role: str) -> None:
    """Let a PostgreSQL ROLE read and append records and keep all else; run it as the owner.

    Servers that sign in as such a role can't change a record even if they are broken into. Again
    after each upgrade, since new tables are closed at first.
    """
    from sqlalchemy import inspect, text

    from app.cli.opening import opened_app
    from app.database import db, writing
    from app.records.ledger.triggers import granting_to

    with opened_app():
        if db.engine.dialect.name != "postgresql":
            raise click.ClickException("SQLite has no roles; who may open the file may write it.")
        with writing() as connection:
            quote = connection.dialect.identifier_preparer.quote
            schema = inspect(connection).default_schema_name or "public"
            others = [quote(name) for name in db.metadata.tables if name != "record"]
            for statement in granting_to(quote(role), others, quote(schema)):
                connection.execute(text(statement))
    click.echo(f"{role} can read and append records, and work with all other tables.")
