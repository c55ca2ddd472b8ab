"""Make the tables of remnants and of what is cut."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade():
    """Make the step."""
    op.create_table(
        "cut",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("cloth", sa.String(length=36), nullable=False),
        sa.Column("remnant", sa.String(length=36), nullable=True),
        sa.Column("length", sa.Double(), nullable=False),
        sa.Column("lines", sa.JSON(none_as_null=True), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_cut")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "remnant",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.Text(), nullable=True),
        sa.Column("cloth", sa.String(length=36), nullable=True),
        sa.Column("width", sa.Double(), nullable=True),
        sa.Column("length", sa.Double(), nullable=True),
        sa.Column("use_first", sa.Boolean(), nullable=True),
        sa.Column("archived", sa.Boolean(), nullable=True),
        sa.Column("stamps", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_remnant")),
        sqlite_with_rowid=False,
    )
