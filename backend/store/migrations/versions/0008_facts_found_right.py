"""Make the table of what an owner looked at and found right."""

import sqlalchemy as sa
from alembic import op

revision = "0008"
down_revision = "0007"


def upgrade():
    """Make the step."""
    op.create_table(
        "found_right",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("fact", sa.String(length=36), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_found_right")),
        sqlite_with_rowid=False,
    )
