"""Make the tables of what is taken back at the stall: refunds, goods set aside, goods asked for."""

import sqlalchemy as sa
from alembic import op

revision = "0005"
down_revision = "0004"

TAKEN_BACK = {"refund_void": "refund", "set_aside_void": "set_aside", "asked_for_void": "asked_for"}


def upgrade():
    """Make the step."""
    for table, names in TAKEN_BACK.items():
        op.create_table(
            table,
            sa.Column("business", sa.String(length=36), nullable=False),
            sa.Column("id", sa.String(length=36), nullable=False),
            sa.Column("at", sa.BigInteger(), nullable=False),
            sa.Column("day", sa.String(length=10), nullable=False),
            sa.Column(names, sa.String(length=36), nullable=False),
            sa.Column("reason", sa.Text(), nullable=False),
            sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_" + table)),
            sqlite_with_rowid=False,
        )
