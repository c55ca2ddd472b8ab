"""Run the steps in one transaction, one process at a time."""

from alembic import context
from sqlalchemy import text

from backend.store.database import Model, writing

# any number, the same in every process: who migrates holds it
LOCK = 5_202_611


def migrate():
    """Bring the database up to date."""
    with writing() as connection:
        if connection.dialect.name == "postgresql":
            connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": LOCK})
        context.configure(
            connection=connection,
            target_metadata=Model.metadata,
            render_as_batch=connection.dialect.name == "sqlite",
        )
        with context.begin_transaction():
            context.run_migrations()


migrate()
