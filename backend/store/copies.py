"""The rows that a copy of everything holds: the logs and the phones. The tables are made again from them."""

from sqlalchemy import delete, select
from sqlalchemy.exc import DataError, IntegrityError, StatementError

from . import bulk
from .database import Model
from .models.access import Device
from .models.log import Change, LogHead

COPIED = {table.name: table for table in (LogHead.__table__, Change.__table__, Device.__table__)}
AT_ONCE = 2_000
# a row that the database does not take: twice there, too large a number
NotTaken = (DataError, IntegrityError, StatementError)


def rows_of(connection, name):
    """Read the rows of a copied table, as JSON values, without holding them all."""
    table = COPIED[name]
    rows = connection.execution_options(yield_per=AT_ONCE).execute(select(table).order_by(*table.primary_key))
    for row in rows.mappings():
        yield {key: value.hex() if isinstance(value, bytes) else value for key, value in row.items()}


def is_row(name, row):
    """Say whether a JSON value is a row of a copied table: each column, of its type."""
    columns = COPIED[name].columns
    return (
        isinstance(row, dict)
        and row.keys() == {column.name for column in columns}
        and all(_is_value(column, row[column.name]) for column in columns)
    )


def _is_value(column, value):
    if value is None:
        return column.nullable
    kind = str if column.type.python_type in (str, bytes) else column.type.python_type
    if type(value) is not kind:
        return False
    length = getattr(column.type, "length", None)
    if column.type.python_type is bytes:
        return len(value) == 2 * length and not value.strip("0123456789abcdef")
    return kind is not str or length is None or len(value) <= length


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
