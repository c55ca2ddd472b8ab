"""Single questions to the tables."""

from sqlalchemy import func, select

from .models import table_of
from .models.selling import Refund, Sale


def sale(connection, business, id):
    """Find a sale's day and amount, or None."""
    wanted = select(Sale.day, Sale.amount).where(Sale.business == business, Sale.id == id)
    return connection.execute(wanted).mappings().one_or_none()


def refunded(connection, business, sale):
    """Add up what was given back of a sale."""
    amount = select(func.sum(Refund.amount)).where(Refund.business == business, Refund.sale == sale)
    return int(connection.scalar(amount) or 0)


def is_there(connection, business, kind_name, id):
    """Say whether a record of a kind is there."""
    table = table_of(kind_name)
    wanted = select(table.c.id).where(table.c.business == business, table.c.id == id)
    return connection.execute(wanted).first() is not None
