"""Make the tables of sewing, of what is bought and spent, and of wages and prices over time."""

import sqlalchemy as sa
from alembic import op

revision = "0007"
down_revision = "0006"


def upgrade():
    """Make the step."""
    for column in (
        sa.Column("tax_percent", sa.Double(), nullable=True),
        sa.Column("points", sa.JSON(none_as_null=True), nullable=True),
    ):
        op.add_column("business", column)
    op.create_table(
        "method",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.Text(), nullable=True),
        sa.Column("steps", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("archived", sa.Boolean(), nullable=True),
        sa.Column("stamps", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_method")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "batch",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("number", sa.Text(), nullable=True),
        sa.Column("method", sa.String(length=36), nullable=True),
        sa.Column("needle", sa.String(length=36), nullable=True),
        sa.Column("bobbin", sa.String(length=36), nullable=True),
        sa.Column("people", sa.Integer(), nullable=True),
        sa.Column("lines", sa.JSON(none_as_null=True), nullable=True),
        sa.Column("needed", sa.String(length=10), nullable=True),
        sa.Column("state", sa.String(length=40), nullable=True),
        sa.Column("archived", sa.Boolean(), nullable=True),
        sa.Column("stamps", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_batch")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "thread",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.Text(), nullable=True),
        sa.Column("length", sa.Double(), nullable=True),
        sa.Column("price", sa.BigInteger(), nullable=True),
        sa.Column("spools", sa.Integer(), nullable=True),
        sa.Column("opened", sa.Double(), nullable=True),
        sa.Column("grams", sa.Double(), nullable=True),
        sa.Column("empty", sa.Double(), nullable=True),
        sa.Column("tex", sa.Double(), nullable=True),
        sa.Column("archived", sa.Boolean(), nullable=True),
        sa.Column("stamps", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_thread")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "supply",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.Text(), nullable=True),
        sa.Column("use", sa.String(length=40), nullable=True),
        sa.Column("price", sa.BigInteger(), nullable=True),
        sa.Column("lasts", sa.Integer(), nullable=True),
        sa.Column("at_home", sa.Integer(), nullable=True),
        sa.Column("archived", sa.Boolean(), nullable=True),
        sa.Column("stamps", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_supply")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "overhead",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("name", sa.Text(), nullable=True),
        sa.Column("amount", sa.BigInteger(), nullable=True),
        sa.Column("per", sa.String(length=40), nullable=True),
        sa.Column("from", sa.String(length=10), nullable=True),
        sa.Column("to", sa.String(length=10), nullable=True),
        sa.Column("archived", sa.Boolean(), nullable=True),
        sa.Column("stamps", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_overhead")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "batch_step",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("batch", sa.String(length=36), nullable=False),
        sa.Column("step", sa.Text(), nullable=False),
        sa.Column("person", sa.String(length=36), nullable=True),
        sa.Column("laps", sa.JSON(none_as_null=True), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_batch_step")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "batch_step_void",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("batch_step", sa.String(length=36), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_batch_step_void")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "batch_result",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("batch", sa.String(length=36), nullable=False),
        sa.Column("place", sa.String(length=36), nullable=False),
        sa.Column("lines", sa.JSON(none_as_null=True), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_batch_result")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "batch_void",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("result", sa.String(length=36), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_batch_void")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "sample_result",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("batch", sa.String(length=36), nullable=False),
        sa.Column("sample", sa.Integer(), nullable=False),
        sa.Column("accept", sa.Integer(), nullable=False),
        sa.Column("limit", sa.Double(), nullable=True),
        sa.Column("found", sa.JSON(none_as_null=True), nullable=False),
        sa.Column("verdict", sa.String(length=40), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_sample_result")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "work_time",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("person", sa.String(length=36), nullable=True),
        sa.Column("what", sa.String(length=40), nullable=False),
        sa.Column("minutes", sa.Double(), nullable=False),
        sa.Column("booking", sa.String(length=36), nullable=True),
        sa.Column("batch", sa.String(length=36), nullable=True),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_work_time")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "purchase",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("cloth", sa.String(length=36), nullable=True),
        sa.Column("elastic", sa.String(length=36), nullable=True),
        sa.Column("thread", sa.String(length=36), nullable=True),
        sa.Column("supply", sa.String(length=36), nullable=True),
        sa.Column("length", sa.Double(), nullable=True),
        sa.Column("quantity", sa.Integer(), nullable=True),
        sa.Column("amount", sa.BigInteger(), nullable=False),
        sa.Column("tax", sa.BigInteger(), nullable=False),
        sa.Column("box", sa.String(length=36), nullable=True),
        sa.Column("booking", sa.String(length=36), nullable=True),
        sa.Column("line", sa.String(length=36), nullable=True),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_purchase")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "purchase_void",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("purchase", sa.String(length=36), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_purchase_void")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "expense",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("booking", sa.String(length=36), nullable=True),
        sa.Column("what", sa.Text(), nullable=False),
        sa.Column("amount", sa.BigInteger(), nullable=False),
        sa.Column("box", sa.String(length=36), nullable=True),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_expense")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "expense_void",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("expense", sa.String(length=36), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_expense_void")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "price_set",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("product", sa.String(length=36), nullable=False),
        sa.Column("price", sa.BigInteger(), nullable=False),
        sa.Column("from", sa.String(length=10), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_price_set")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "wage_set",
        sa.Column("business", sa.String(length=36), nullable=False),
        sa.Column("id", sa.String(length=36), nullable=False),
        sa.Column("at", sa.BigInteger(), nullable=False),
        sa.Column("day", sa.String(length=10), nullable=False),
        sa.Column("person", sa.String(length=36), nullable=True),
        sa.Column("wage", sa.BigInteger(), nullable=False),
        sa.Column("from", sa.String(length=10), nullable=False),
        sa.PrimaryKeyConstraint("business", "id", name=op.f("pk_wage_set")),
        sqlite_with_rowid=False,
    )
