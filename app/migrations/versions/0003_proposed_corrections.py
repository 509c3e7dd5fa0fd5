"""An index of the corrections that were proposed, so that the open ones are found at once."""

from alembic import op

from app.records.ledger.tables import IS_PROPOSAL

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Create the index."""
    op.create_index(
        "record_proposed",
        "record",
        ["seq"],
        sqlite_where=IS_PROPOSAL,
        postgresql_where=IS_PROPOSAL,
    )
