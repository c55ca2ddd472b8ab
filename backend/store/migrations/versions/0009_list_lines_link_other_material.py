"""A line of the shopping list names its elastic, its thread or another supply, and how many packs."""

import sqlalchemy as sa
from alembic import op

revision = "0009"
down_revision = "0008"


def upgrade():
    """Make the step."""
    for name in ("elastic", "thread", "supply"):
        op.add_column("list_line", sa.Column(name, sa.String(length=36), nullable=True))
    op.add_column("list_line", sa.Column("packs", sa.Integer(), nullable=True))
