"""A code may be for one phone alone, to pair it again."""

import sqlalchemy as sa
from alembic import op

revision = "0011"
down_revision = "0010"


def upgrade():
    """Make the step."""
    op.add_column("pairing_code", sa.Column("device", sa.String(length=36), nullable=True))
