"""The rows that a copy of everything holds: the logs and the phones. The tables are made again from them."""

from sqlalchemy import delete, select

from . import bulk
from .database import Model
from .models.access import Device
from .models.log import Change, LogHead

COPIED = {table.name: table for table in (LogHead.__table__, Change.__table__, Device.__table__)}
AT_ONCE = 2_000


def rows_of(connection, name):
    """Read the rows of a copied table, as JSON values, without holding them all."""
    table = COPIED[name]
    rows = connection.execution_options(yield_per=AT_ONCE).execute(select(table).order_by(*table.primary_key))
    for row in rows.mappings():
        yield {key: value.hex() if isinstance(value, bytes) else value for key, value in row.items()}


def put_rows(connection, name, rows):
    """Put rows back into a copied table."""
    table, batch = COPIED[name], []
    for row in rows:
        batch.append(row | {"hash": bytes.fromhex(row["hash"])} if "hash" in row else row)
        if len(batch) == AT_ONCE:
            bulk.put(connection, table, batch)
            batch = []
    if batch:
        bulk.put(connection, table, batch)


def empty(connection):
    """Take every row of every business out of every table."""
    for table in Model.metadata.tables.values():
        connection.execute(delete(table))
