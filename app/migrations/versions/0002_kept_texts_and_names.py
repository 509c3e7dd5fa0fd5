"""Texts as they were approved, and the names under signatures where they can be erased."""

import sqlalchemy as sa
from alembic import op

from app.records.texts.tables import TRIGGERS

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Create the three tables, and close the one of texts against change."""
    op.create_table(
        "kept_text",
        sa.Column("sha256", sa.Text(), nullable=False),
        sa.Column("body", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("sha256"),
        sqlite_strict=True,
    )
    op.create_table(
        "name_key",
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("key", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("person_id"),
    )
    op.create_table(
        "signed_name",
        sa.Column("seal", sa.String(length=64), nullable=False),
        sa.Column("person_id", sa.String(length=36), nullable=False),
        sa.Column("printed_name", sa.String(length=120), nullable=False),
        sa.PrimaryKeyConstraint("seal"),
    )
    op.create_index("signed_name_of_person", "signed_name", ["person_id"], unique=False)
    for trigger in TRIGGERS[op.get_bind().dialect.name]:
        op.execute(sa.text(trigger))
