"""A line of the shopping list names its cloth and its size."""

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"


def upgrade():
    """Make the step."""
    op.add_column("list_line", sa.Column("cloth", sa.String(length=36), nullable=True))
    op.add_column("list_line", sa.Column("size", sa.String(length=36), nullable=True))
