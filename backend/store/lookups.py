"""Single questions to the tables."""

from sqlalchemy import case, select

from .models import table_of


def is_there(connection, business, kind_name, id):
    """Say whether a record of a kind is there."""
    table = table_of(kind_name)
    wanted = select(table.c.id).where(table.c.business == business, table.c.id == id)
    return connection.execute(wanted).first() is not None


def business_name(connection, business):
    """Find what a business is called: as its own record says, or else any; None while nobody said."""
    table = table_of("business")
    own_first = case((table.c.id == business, 0), else_=1)
    named = select(table.c.name).where(table.c.business == business, table.c.name.is_not(None))
    return connection.scalar(named.order_by(own_first, table.c.id).limit(1))
