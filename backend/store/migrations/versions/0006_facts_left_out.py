"""Make the table of facts that an owner leaves out."""

import sqlalchemy as sa
from alembic import op

revision = "0006"
down_revision = "0005"


def upgrade():
    """Make the step."""
    op.create_table(
        "left_out",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("fact", sa.String(length=36), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_left_out")),
        sqlite_with_rowid=False,
    )
