"""An index of records that came in late or flagged: those that wait for a word open at once."""

from alembic import op

from app.records.ledger.tables import IS_LATER

revision = "0005"
down_revision = "0004"


def upgrade() -> None:
    """Create the index."""
    op.create_index(
        "record_later", "record", ["kind"], sqlite_where=IS_LATER, postgresql_where=IS_LATER
    )
