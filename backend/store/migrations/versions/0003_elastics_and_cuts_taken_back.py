"""Make the tables of elastics and of cuts taken back; a size names its elastic, a cut its offcuts."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade():
    """Make the step."""
    op.create_table(
        "cut_void",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("cut", sa.String(length=36), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_cut_void")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "elastic",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.Text(), nullable=True),
        sa.Column("elastic_width", sa.Double(), nullable=True),
        sa.Column("elastic_thickness", sa.Double(), nullable=True),
        sa.Column("tail", sa.Double(), nullable=True),
        sa.Column("strands", sa.Integer(), nullable=True),
        sa.Column("pull", sa.Double(), nullable=True),
        sa.Column("knot_takeup", sa.Double(), nullable=True),
        sa.Column("roll_length", sa.Double(), nullable=True),
        sa.Column("price", sa.BigInteger(), nullable=True),
        sa.Column("rolls", sa.Integer(), nullable=True),
        sa.Column("opened", sa.Double(), nullable=True),
        sa.Column("archived", sa.Boolean(), nullable=True),
        sa.Column("stamps", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_elastic")),
        sqlite_with_rowid=False,
    )
    op.add_column("piece", sa.Column("elastic", sa.String(length=36), nullable=True))
    # of cuts that were there before, none is known
    offcuts = sa.Column("offcuts", sa.JSON(none_as_null=True), nullable=False, server_default="[]")
    op.add_column("cut", offcuts)
