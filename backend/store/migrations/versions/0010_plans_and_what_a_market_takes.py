"""Make the table of plans; more is said of markets, and of the business when it sews."""

import sqlalchemy as sa
from alembic import op

revision = "0010"
down_revision = "0009"

WEEKDAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")


def upgrade():
    """Make the step."""
    op.create_table(
        "plan",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("use", sa.String(length=40), nullable=True),
        sa.Column("booking", sa.String(length=36), nullable=True),
        sa.Column("lines", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("archived", sa.Boolean(), nullable=True),
        sa.Column("stamps", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_plan")),
        sqlite_with_rowid=False,
    )
    for table in ("market", "booking"):
        op.add_column(table, sa.Column("other", sa.BigInteger(), nullable=True))
        op.add_column(table, sa.Column("trips", sa.Integer(), nullable=True))
        op.add_column(table, sa.Column("travel_minutes", sa.Double(), nullable=True))
        op.add_column(table, sa.Column("set_up_minutes", sa.Double(), nullable=True))
    op.add_column("business", sa.Column("per_km", sa.BigInteger(), nullable=True))
    op.add_column("business", sa.Column("address", sa.Text(), nullable=True))
    for day in WEEKDAYS:
        op.add_column("business", sa.Column("bench_" + day, sa.Double(), nullable=True))
