"""A job may say which set of hands it needs; jobs from before go by the default one."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade() -> None:
    """Add the column."""
    column = sa.Column("crew_set", sa.String(length=60), server_default="", nullable=False)
    op.add_column("job", column)
