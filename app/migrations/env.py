"""Alembic's entry: run the migrations on the app's own engine."""

from alembic import context
from flask import current_app


def run() -> None:
    """Run the migrations inside one writing transaction."""
    db = current_app.extensions["migrate"].db
    with db.engine.connect() as connection:
        connection = connection.execution_options(is_writing=True)
        context.configure(
            connection=connection, target_metadata=db.metadata, transactional_ddl=True
        )
        with context.begin_transaction():
            context.run_migrations()


run()
